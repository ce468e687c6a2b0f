"""Exact kinematics of piston and valve: positions, port openings, events, and their doubt."""
