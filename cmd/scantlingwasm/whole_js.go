//go:build whole

package main

// write_files makes the files of the plan that was asked for.
//
//go:wasmexport write_files
func writeFiles() { out = makeFiles(session, in) }
