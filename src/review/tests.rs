//! Short cases of the reviewer as a whole.
