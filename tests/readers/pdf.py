"""Reads a PDF with pypdf: python pdf.py FILE WORDS... says what is wrong with it, and ends with 1 where anything is.

Every page has to be A4 or letter (or stand on its short side), every font embedded, and all words have to be in its text."""

import sys

from pypdf import PdfReader

POINTS = 72 / 25.4
PAPERS = [(297.0, 210.0), (279.4, 215.9)]


def main() -> int:
    file, wanted = sys.argv[1], sys.argv[2:]
    reader = PdfReader(file, strict=True)
    wrong = []
    text = ""
    for number, page in enumerate(reader.pages, 1):
        sides = sorted((float(page.mediabox.width) / POINTS, float(page.mediabox.height) / POINTS), reverse=True)
        if not any(max(abs(a - b) for a, b in zip(sides, paper)) < 0.05 for paper in PAPERS):
            wrong.append(f"page {number} measures {sides}")
        for font in page["/Resources"].get("/Font", {}).values():
            for inner in font.get_object()["/DescendantFonts"]:
                descriptor = inner.get_object()["/FontDescriptor"].get_object()
                if not any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3")):
                    wrong.append(f"page {number}: {descriptor['/FontName']} is not embedded")
        text += page.extract_text() + "\n"
    packed = "".join(text.split())
    wrong += [f"\"{words}\" is not in the text" for words in wanted if "".join(words.split()) not in packed]
    for line in wrong:
        print(line, file=sys.stderr)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
