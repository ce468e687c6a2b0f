"""Pages out: a neutral drawing of lines, text and dimensions, then SVG; the job card as PDF and as one HTML page."""

from lapwright.papers.card import card_bytes, write_card
from lapwright.papers.matter import CardMatter, RecordProblem, RunSheet, Section
from lapwright.papers.page import page_text, write_page

__all__ = ["CardMatter", "RecordProblem", "RunSheet", "Section", "card_bytes", "page_text", "write_card", "write_page"]
