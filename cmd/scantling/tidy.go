package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/google/renameio/v2"

	"scantling/internal/snag"
	"scantling/internal/tidy"
)

type tidyCommand struct {
	File  string `arg:"" help:"The design file." type:"path"`
	Check bool   `help:"Change nothing; say whether the file is tidy, and exit with 1 if it is not."`
}

func (c *tidyCommand) run(out, errs io.Writer) int {
	src, err := os.ReadFile(c.File)
	if err != nil {
		return misuse(errs, "cannot read the design file", err)
	}
	name := shown(c.File)
	ordered, snags := tidy.Tidy(name, src)
	switch {
	case len(snags) > 0:
		fmt.Fprint(errs, snags.Sorted().Text(snag.Sources{name: src}))
		fmt.Fprintf(errs, "%s: cannot be tidied before this is mended; nothing was changed.\n", name)
		return exitErrors
	case bytes.Equal(src, ordered):
		fmt.Fprintf(out, "%s: tidy.\n", name)
		return exitReady
	case c.Check:
		fmt.Fprintf(out, "%s: not tidy; scantling tidy %s puts it in order.\n", name, name)
		return exitErrors
	}
	if err := replace(c.File, ordered); err != nil {
		return misuse(errs, "cannot write the design file, which is as it was", err)
	}
	fmt.Fprintf(out, "%s: put in order.\n", name)
	return exitReady
}

// replace puts text into the file at path, whole or not at all. A link stays a
// link, and the file keeps who may read and write it.
func replace(path string, text []byte) error {
	target, err := filepath.EvalSymlinks(path)
	if err != nil {
		return err
	}
	return renameio.WriteFile(target, text, 0o644, renameio.WithExistingPermissions())
}
