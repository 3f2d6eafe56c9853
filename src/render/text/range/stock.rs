//! The range: pads for the drawer.
