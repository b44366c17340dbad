"""Line illustrations for training manuals: hidden lines removed, numbered callouts, right and wrong, in one theme."""
