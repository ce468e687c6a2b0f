"""The log book as a person writes, reads, searches and sums it up."""
