"""Motion: whether solids can be moved along given ways without running into others. It knows nothing of skirting."""
