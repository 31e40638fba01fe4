"""Drawings: matplotlib figures, plots written as SVG, icons, QR codes."""
