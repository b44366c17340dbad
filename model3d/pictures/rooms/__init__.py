"""Pictures for the customer: the finished room, furnished and lit, the room before, and pairs side by side."""
