"""What the desk keeps: houses and their revisions, signatures, records, work asked for.

A write that was acknowledged is on the disk. Nothing here knows what a joint is.
"""
