"""What fills the cylinder: air, water and steam, and how they flow through an opening."""
