//! Plans from guesses and from burns so far.
