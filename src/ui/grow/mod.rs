//! Hair that grows: repeating a visit, when to return, what this client's hair taught.
