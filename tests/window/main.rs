//! The real program under a display of its own.
