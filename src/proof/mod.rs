//! Door 3, the room for the local live preview, the only one that will listen. Nothing listens yet.
