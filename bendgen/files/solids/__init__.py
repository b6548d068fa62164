"""Tubes out of ISO 10303-21 files: text to entities, entities to faces, faces to a centreline. No CAD kernel."""
