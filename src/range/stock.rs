//! Pads for the drawer.
