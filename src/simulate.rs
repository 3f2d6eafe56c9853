//! Invented customers with true heads, in helmets as they truly are.
