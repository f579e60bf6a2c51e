// Package design turns one design file into one piece of furniture: every board
// in place, and everything else the file says about them.
//
// The file's values form a graph with one node a quantity: a name, a board's
// direction, each hold, each end, each cut, each row figure. A node is worked
// out when somebody reads it and kept; a node read while it is being worked out
// is a loop, and is told as the chain of names a carpenter would see as one.
// Start at Open, then Evaluate.
package design
