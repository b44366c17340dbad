"""From a plan to a folder of files: what is built, in which order, and how the folder is put in place."""
