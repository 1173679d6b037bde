//! Drawing.
