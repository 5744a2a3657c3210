"""Readings as tables: CSV and XLSX, both ways, with the same columns.

`columns` which columns there are and what each accepts; `csv_file` and `xlsx_file` turn files into
rows of text and back (`guarded` keeps text from being taken for a formula); `row` reads one row;
`importing` checks a whole table and makes its entries; `exporting` writes readings out.

A blade's answer stands in `value` as `F2:0.06 goes`, with an empty `unit`. A size taken through
several parts names each with its position in `part`: `block=block-1 + main.1.shell_upper=shell-17`.
"""
