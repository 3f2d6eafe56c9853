//! What journals say of helmets, measuring and customers.
