"""Ray-traced pictures of a room: embree rays, numpy light, no OpenGL."""
