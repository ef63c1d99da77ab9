"""Design files: text to a frozen design and back, complaints, starters and questions."""
