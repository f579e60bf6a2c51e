package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/google/renameio/v2"

	"scantling/internal/plan"
	"scantling/web"
)

type publishCommand struct {
	File    string `arg:"" help:"The design file." type:"path"`
	Out     string `short:"o" help:"The folder to write to; out/, the name of the file and -page unless given." type:"path"`
	OneFile string `help:"Write one HTML file with everything inside instead; it opens from disk and goes by mail." type:"path" placeholder:"FILE.html"`
	Date    string `help:"The date printed on the front; none unless given." placeholder:"DATE"`
}

func (c *publishCommand) run(ctx context.Context, out, errs io.Writer) int {
	src, err := os.ReadFile(c.File)
	if err != nil {
		return misuse(errs, "cannot read the design file", err)
	}
	p, err := plan.Open(shown(c.File), src).Run(ctx, plan.Options{Want: plan.Book, Date: c.Date})
	if err != nil {
		return misuse(errs, err.Error(), nil)
	}
	fmt.Fprint(errs, p.Messages())
	if p.Readings == nil {
		return misuse(errs, "nothing was published: "+shown(c.File)+" cannot be worked out before what is said above is mended", nil)
	}
	d := &web.Design{File: filepath.Base(c.File), Source: src, Page: p.Page(plan.PageOptions{})}
	if c.OneFile != "" {
		page, err := web.OneFile(d)
		if err != nil {
			return misuse(errs, "nothing was published", err)
		}
		if err := renameio.WriteFile(c.OneFile, page, 0o644); err != nil {
			return misuse(errs, "cannot write the page; what was there before is unharmed", err)
		}
		fmt.Fprintf(out, "The page: %s, %.1f MB\n", shown(c.OneFile), float64(len(page))/1e6)
		return verdict(p)
	}
	dir := c.Out
	if dir == "" {
		dir = filepath.Join("out", strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File))+"-page")
	}
	files, err := web.Folder(d)
	if err != nil {
		return misuse(errs, "nothing was published", err)
	}
	if err := write(dir, files); err != nil {
		return misuse(errs, "cannot write the page; what was there before is unharmed", err)
	}
	fmt.Fprintf(out, "The page: %s; put the folder on any web server\n", shown(filepath.Join(dir, "index.html")))
	return verdict(p)
}
