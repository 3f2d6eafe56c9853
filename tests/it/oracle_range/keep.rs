//! Smallest ranges against brute force and a textbook.
