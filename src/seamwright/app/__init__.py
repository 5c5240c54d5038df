"""The desk: the house in the browser, over HTTP on this machine.

Thin: it reads what was asked, calls the same functions as the commands, and answers in JSON.
"""
