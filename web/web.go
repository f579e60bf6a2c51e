// Package web makes the page of a plan: a folder that any static host serves, or
// one HTML file with everything inside.
//
// The page holds the plan of the sizes as designed, in plain HTML with drawings,
// so that it reads where no script runs; the scripts and the engine beside it,
// built by build.mjs into dist, make it live. README.md tells how they work
// together. Start at Folder and OneFile.
package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io/fs"
	"strings"

	"scantling/internal/plan"
	"scantling/internal/region"
)

//go:embed dist
var dist embed.FS

// ErrNotBuilt says that this program was compiled without its page.
var ErrNotBuilt = errors.New("this scantling was built without its page; run make, which builds both")

// A Design is what is published: a plan that Run has drawn, with what it is a plan
// of.
type Design struct {
	File   string // the design file's name, without its folder
	Source []byte
	Page   *plan.Page
}

// said is what the page's script reads first.
type said struct {
	Piece   string   `json:"piece"`
	File    string   `json:"file"`
	Source  string   `json:"source"`
	Region  string   `json:"region"`
	Regions []string `json:"regions"`
	Engine  string   `json:"engine,omitempty"`
	Whole   string   `json:"whole,omitempty"`
	Worker  string   `json:"worker,omitempty"`
}

func (d *Design) said() said {
	s := said{Piece: d.Page.Glance.Title, File: d.File, Source: string(d.Source), Region: d.Page.Region}
	for _, r := range region.All() {
		s.Regions = append(s.Regions, r.String())
	}
	return s
}

// part returns a file of dist.
func part(name string) ([]byte, error) {
	b, err := dist.ReadFile("dist/" + name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNotBuilt
	}
	return b, err
}

// Folder returns the files of a published folder: index.html and what it loads,
// all from its own folder.
func Folder(d *Design) ([]plan.File, error) {
	var files []plan.File
	for _, name := range []string{"page.js", "worker.js", "page.css", "regular.ttf", "semibold.ttf", "engine.wasm.gz", "whole.wasm.gz"} {
		b, err := part(name)
		if err != nil {
			return nil, err
		}
		files = append(files, plan.File{Path: name, Bytes: b})
	}
	s := d.said()
	s.Engine, s.Whole, s.Worker = "engine.wasm.gz", "whole.wasm.gz", "worker.js"
	policy := "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; connect-src 'self'; style-src 'self'; font-src 'self'; img-src data:; base-uri 'none'; form-action 'none'"
	page, err := d.html(policy, `<link rel="stylesheet" href="page.css">`, s, `<script src="page.js"></script>`)
	if err != nil {
		return nil, err
	}
	files = append(files, plan.File{Path: "index.html", Bytes: page})

	// The service worker keeps exactly this edition on the reader's device.
	sum := sha256.New()
	names := []string{"./"}
	for _, f := range files {
		fmt.Fprintf(sum, "%s %d\n", f.Path, len(f.Bytes))
		sum.Write(f.Bytes)
		names = append(names, f.Path)
	}
	list, err := json.Marshal(names)
	if err != nil {
		return nil, err
	}
	worker, err := part("offline.js")
	if err != nil {
		return nil, err
	}
	first := fmt.Sprintf("const edition = %q, files = %s\n", fmt.Sprintf("scantling %x", sum.Sum(nil)[:8]), list)
	return append(files, plan.File{Path: "offline.js", Bytes: append([]byte(first), worker...)}), nil
}

// OneFile returns the page as one HTML file that needs nothing else, not even a
// network: it opens from disk.
func OneFile(d *Design) ([]byte, error) {
	var parts [6][]byte
	for i, name := range [6]string{"page.js", "worker.js", "page.css", "regular.ttf", "semibold.ttf", "whole.lzma"} {
		b, err := part(name)
		if err != nil {
			return nil, err
		}
		parts[i] = b
	}
	script, worker, style := string(parts[0]), string(parts[1]), string(parts[2])
	for i, name := range []string{"regular.ttf", "semibold.ttf"} {
		style = strings.ReplaceAll(style, name, "data:font/ttf;base64,"+base64.StdEncoding.EncodeToString(parts[3+i]))
	}
	if strings.Contains(strings.ToLower(script+worker), "</script") {
		return nil, errors.New("a script of the page holds its own end; build it anew")
	}
	policy := fmt.Sprintf("default-src 'none'; script-src '%s' 'wasm-unsafe-eval' blob:; worker-src blob:; style-src '%s'; font-src data:; img-src data:; base-uri 'none'; form-action 'none'",
		hash(script), hash(style))
	last := `<script type="text/plain" id="worker">` + worker + `</script>` +
		`<script type="text/plain" id="engine">` + base85(parts[5]) + `</script>` +
		`<script>` + script + `</script>`
	return d.html(policy, `<style>`+style+`</style>`, d.said(), last)
}

// letters are 85 that mean nothing to HTML.
const letters = "!#$%()*+,-./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_abcdefghijklmnopqrstuvwxyz{|"

// base85 writes four bytes as five letters, where base64 would take five and a
// third. The end is filled up with zeros, which an LZMA stream does not mind.
func base85(b []byte) string {
	b = append(b[:len(b):len(b)], make([]byte, (4-len(b)%4)%4)...)
	out := make([]byte, 0, len(b)/4*5)
	for ; len(b) > 0; b = b[4:] {
		v := binary.BigEndian.Uint32(b)
		for _, of := range [5]uint32{85 * 85 * 85 * 85, 85 * 85 * 85, 85 * 85, 85, 1} {
			out = append(out, letters[v/of%85])
		}
	}
	return string(out)
}

// hash is how a content-security policy names an inline script or style.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}

// html puts the page together. Everything of the design in it is escaped by package
// page, or stands in JSON, where encoding/json escapes < > and &.
func (d *Design) html(policy, style string, s said, scripts string) ([]byte, error) {
	data, err := json.Marshal(s)
	if err != nil {
		return nil, err
	}
	lang := "en-US"
	if r, ok := region.Parse(s.Region); ok && r.Metric() {
		lang = "en-GB"
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, `<!doctype html>
<html lang="%s"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="%s">
<meta name="viewport" content="width=device-width, initial-scale=1"><title>%s: a plan to build from</title><link rel="icon" href="data:,">
%s</head><body>
%s<main class="sheet" id="plan">
%s</main>
<footer class="foot"><span>All sizes are in %s.</span><span>← Left is your left, facing the front.</span></footer>
<script type="application/json" id="design">%s</script>
%s</body></html>
`, lang, policy, html.EscapeString(s.Piece), style, plan.Letters(), d.Page.HTML(), html.EscapeString(d.Page.Glance.Units), data, scripts)
	return b.Bytes(), nil
}
