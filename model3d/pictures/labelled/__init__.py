"""What bench pictures and corner sheets share: labels beside the parts, never over them, and how they are drawn."""
