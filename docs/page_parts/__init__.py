"""Parts of pages that are written from the code and its tests when the site is built."""
