//! What a wanted pad set costs, and the cheapest way to get it.
