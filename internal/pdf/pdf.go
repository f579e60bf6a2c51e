// Package pdf writes a document of sheets as a tagged PDF.
//
// A reader who cannot see the page hears headings, paragraphs, tables with
// their heads and what each picture shows, in the order of the plan; copied text
// holds fractions as they are written ("33 13/16"), though they are set stacked.
// Running feet, rules and heads repeated overleaf are marked as decoration. The
// file claims PDF/UA-1 (ISO 14289-1:2014) and is PDF 1.7 (ISO 32000-1:2008), whose
// section numbers the comments here give.
//
// Write is the only function. It is a pure function of the document: no date, and
// an identifier made from the contents, so the same plan is the same bytes.
package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"math"
	"strconv"
	"unicode/utf16"

	"scantling/internal/drawing"
)

// Write writes the document. It returns an error of w, an anchor that a link or
// bookmark names and no sheet has, or a document without sheets.
func Write(w io.Writer, d *drawing.Document) error {
	if len(d.Sheets) == 0 {
		return fmt.Errorf("write the PDF: the document has no page")
	}
	b := &builder{file: &file{}, doc: d, anchors: map[string]place{}}
	b.collect()
	if err := b.write(); err != nil {
		return fmt.Errorf("write the PDF: %w", err)
	}
	_, err := w.Write(b.file.bytes(b.catalog, b.info))
	return err
}

// ref is the number of an object.
type ref int

func (r ref) String() string { return fmt.Sprintf("%d 0 R", int(r)) }

// file gathers numbered objects.
type file struct{ objects [][]byte }

// reserve gives out a number whose object is set later.
func (f *file) reserve() ref {
	f.objects = append(f.objects, nil)
	return ref(len(f.objects))
}

func (f *file) set(r ref, format string, args ...any) {
	f.objects[r-1] = fmt.Appendf(nil, format, args...)
}

func (f *file) add(format string, args ...any) ref {
	r := f.reserve()
	f.set(r, format, args...)
	return r
}

// stream adds a compressed stream whose dictionary holds extra as well.
func (f *file) stream(extra string, data []byte) ref {
	var z bytes.Buffer
	zw, _ := zlib.NewWriterLevel(&z, zlib.BestCompression)
	zw.Write(data)
	zw.Close()
	return f.add("<</Length %d/Filter/FlateDecode%s>>\nstream\n%s\nendstream", z.Len(), extra, z.Bytes())
}

// bytes writes header, objects, cross-reference table and trailer (7.5).
func (f *file) bytes(catalog, info ref) []byte {
	var b bytes.Buffer
	b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	at := make([]int, len(f.objects))
	for i, o := range f.objects {
		at[i] = b.Len()
		fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
	}
	id := sha256.Sum256(b.Bytes())
	start := b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", len(at)+1)
	for _, n := range at {
		fmt.Fprintf(&b, "%010d 00000 n \n", n)
	}
	hexID := hex.EncodeToString(id[:16])
	fmt.Fprintf(&b, "trailer\n<</Size %d/Root %v/Info %v/ID[<%s><%s>]>>\nstartxref\n%d\n%%%%EOF\n",
		len(at)+1, catalog, info, hexID, hexID, start)
	return b.Bytes()
}

// text writes a text string (7.9.2.2): UTF-16 with a byte order mark, in hex,
// which needs no escapes.
func text(s string) string {
	b := []byte("<FEFF")
	for _, u := range utf16.Encode([]rune(s)) {
		b = fmt.Appendf(b, "%04X", u)
	}
	return string(append(b, '>'))
}

// num writes a number to a thousandth of a point.
func num(v float64) string {
	v = math.Round(v*1000) / 1000
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
