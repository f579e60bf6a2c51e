package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/google/renameio/v2"

	"scantling/internal/measure"
	"scantling/internal/region"
	"scantling/internal/start"
)

type newCommand struct {
	What   string `help:"What to begin: table, bench, shelf, planter or gate." placeholder:"USE"`
	Name   string `help:"What the piece is called." placeholder:"TEXT"`
	Length string `help:"How long it is, as in 5' or 42 1/2\"." placeholder:"SIZE"`
	Depth  string `help:"How deep it is, front to back." placeholder:"SIZE"`
	Height string `help:"How high it is." placeholder:"SIZE"`
	Stands string `help:"Where it will stand: grass, soil, gravel, terrace, deck or porch." placeholder:"PLACE"`
	Region string `help:"Whose yard the lumber is from: us, uk, eu, au or nz." placeholder:"REGION"`
	Units  string `help:"inch or metric: short for the us and the uk." placeholder:"UNITS"`
	Wood   string `help:"What the yard sells: treated pine, cedar, or a wood by its name." placeholder:"WOOD"`
	Out    string `short:"o" help:"The file to write; named after the piece unless given." type:"path" placeholder:"FILE"`
	Force  bool   `help:"Write over a file that is there already."`
}

// run begins a design file. What no flag answers is asked, one question a line;
// an empty line, or no line, takes the usual answer.
func (c *newCommand) run(ctx context.Context, in io.Reader, out, errs io.Writer) int {
	a := start.Answers{What: c.What, Name: c.Name, Length: c.Length, Depth: c.Depth, Height: c.Height, Stands: c.Stands, Wood: c.Wood}
	home, err := (&design{Region: c.Region, Units: c.Units}).edition(region.America)
	if err != nil {
		return misuse(errs, err.Error(), nil)
	}
	a.Region = home
	if err := newAsker(ctx, in, out).all(&a, c.Region == "" && c.Units == ""); err != nil {
		var bad *start.Error
		if errors.As(err, &bad) {
			return misuse(errs, fmt.Sprintf("%v (--%s)", bad, bad.Field), nil)
		}
		return misuse(errs, "stopped; nothing was written", nil)
	}
	text, err := start.Start(a)
	if err != nil {
		return misuse(errs, err.Error(), nil)
	}
	path := c.Out
	if path == "" {
		path = fileName(a.Name)
	}
	err = create(path, text, c.Force)
	switch path = shown(path); {
	case errors.Is(err, os.ErrExist):
		return misuse(errs, path+" is there already; give another name with -o, or write over it with --force", nil)
	case err != nil:
		return misuse(errs, "cannot write the design file", err)
	}
	fmt.Fprintf(out, "%s is begun. Next: scantling check %s, then scantling plan %s.\n", path, path, path)
	return exitReady
}

// An asker asks questions on a terminal or down a pipe.
type asker struct {
	ctx     context.Context
	lines   <-chan string
	out     io.Writer
	patient bool // a person answers: a wrong answer is asked for again
}

// newAsker reads answers from in ahead, so that an interrupt need not wait for one.
func newAsker(ctx context.Context, in io.Reader, out io.Writer) *asker {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for s := bufio.NewScanner(in); s.Scan(); {
			select {
			case lines <- strings.TrimSpace(s.Text()):
			case <-ctx.Done():
				return
			}
		}
	}()
	k := &asker{ctx: ctx, lines: lines, out: out}
	if f, ok := in.(*os.File); ok {
		info, err := f.Stat()
		k.patient = err == nil && info.Mode()&os.ModeCharDevice != 0
	}
	return k
}

// all asks for everything that is not answered yet. Its error is a *start.Error
// about one answer, or the context's.
func (k *asker) all(a *start.Answers, askRegion bool) error {
	uses := start.Uses()
	if a.What == "" {
		for _, u := range uses {
			fmt.Fprintf(k.out, "  %-8s %s\n", u.Name, u.Says)
		}
	}
	if err := k.ask("what", a, &a.What, "What shall it be?", uses[0].Name); err != nil {
		return err
	}
	if askRegion {
		if err := k.region(a); err != nil {
			return err
		}
		uses = start.UsesIn(a.Region)
	}
	use := uses[0]
	for _, u := range uses {
		if strings.EqualFold(u.Name, strings.TrimSpace(a.What)) {
			use = u
		}
	}
	if err := k.ask("name", a, &a.Name, "What is it called?", strings.ToUpper(use.Name[:1])+use.Name[1:]); err != nil {
		return err
	}
	sizes := map[string]*string{"length": &a.Length, "depth": &a.Depth, "height": &a.Height}
	for _, s := range use.Sizes {
		question := fmt.Sprintf("How much is the %s (%s), from %s to %s?", s.Name, s.Says, said(s.From, a.Region), said(s.To, a.Region))
		if err := k.ask(s.Name, a, sizes[s.Name], question, said(s.Is, a.Region)); err != nil {
			return err
		}
	}
	var places []string
	for _, p := range start.Places() {
		places = append(places, p.Name)
	}
	if err := k.ask("stands", a, &a.Stands, "Where will it stand ("+strings.Join(places, ", ")+")?", places[0]); err != nil {
		return err
	}
	return k.ask("wood", a, &a.Wood, "Which lumber does your yard sell ("+strings.Join(start.Woods(), ", ")+", or another wood by its name)?", use.Wood)
}

// line puts a question and returns its answer, or the usual one to an empty line;
// asked says that there was a line.
func (k *asker) line(question, usual string) (answer string, asked bool, err error) {
	fmt.Fprintf(k.out, "%s [%s] ", question, usual)
	select {
	case answer, asked = <-k.lines:
		if !asked {
			fmt.Fprintln(k.out)
		}
	case <-k.ctx.Done():
		return "", false, k.ctx.Err()
	}
	if answer == "" {
		answer = usual
	}
	return answer, asked, nil
}

// region asks whose yard the lumber is from.
func (k *asker) region(a *start.Answers) error {
	for {
		answer, asked, err := k.line("Whose yard is the lumber from (us, uk, eu, au, nz)?", "us")
		if err != nil {
			return err
		}
		r, ok := region.Parse(answer)
		if a.Region = r; ok {
			return nil
		}
		bad := &start.Error{Field: "region", What: fmt.Sprintf("“%s” is no region known here", answer), Mend: "say " + region.Short}
		if !k.patient || !asked {
			return bad
		}
		fmt.Fprintln(k.out, bad)
	}
}

// ask asks one question, unless a flag answered it, until its answer will do.
func (k *asker) ask(field string, a *start.Answers, answer *string, question, usual string) error {
	asked := false
	for {
		if *answer == "" {
			var err error
			if *answer, asked, err = k.line(question, usual); err != nil {
				return err
			}
		}
		_, err := start.Start(*a)
		var bad *start.Error
		if !errors.As(err, &bad) || bad.Field != field {
			return nil // another answer may be wrong, which is asked for or told in its turn
		}
		if !k.patient || !asked {
			return bad
		}
		fmt.Fprintln(k.out, bad)
		*answer = ""
	}
}

// said is a length in the units of a region.
func said(l measure.Length, r region.Region) string {
	if r.Metric() {
		return l.Exact(measure.Metric)
	}
	return l.Exact(measure.Imperial)
}

// fileName makes the name of a file out of the name of a piece: "Picker's
// chair" is pickers-chair.yaml.
func fileName(piece string) string {
	words := strings.FieldsFunc(strings.NewReplacer("'", "", "’", "").Replace(strings.ToLower(piece)), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9') && r < 0x80
	})
	if len(words) == 0 {
		words = []string{"piece"}
	}
	return strings.Join(words, "-") + ".yaml"
}

// create writes a file, whole or not at all. Without force a file that is there
// already is left alone, and the error is os.ErrExist.
func create(path string, text []byte, force bool) error {
	if !force {
		f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644) // takes the name, as nobody else can now
		if err != nil {
			return err
		}
		if err := f.Close(); err != nil {
			return err
		}
	}
	err := renameio.WriteFile(path, text, 0o644)
	if err != nil && !force {
		os.Remove(path)
	}
	return err
}
