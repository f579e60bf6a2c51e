// Command scantling turns the design file of a piece of outdoor furniture into
// the plan a person builds it from.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"strings"

	"github.com/alecthomas/kong"
	"github.com/google/renameio/v2"

	"scantling/internal/plan"
	"scantling/internal/region"
)

// Exit codes: what a script may rely on.
const (
	exitReady  = 0 // no error; cautions and advice may have been printed
	exitErrors = 1 // the design has at least one error
	exitMisuse = 2 // the command was not understood, or a file could not be read or written
)

// commands is the command line; kong makes the help from its tags.
type commands struct {
	Plan    planCommand    `cmd:"" help:"Write the plan of a piece: the book, the lists, the drawings and plan.json."`
	Check   checkCommand   `cmd:"" help:"Say what is wrong with a design, what to take care of and what is worth knowing."`
	Publish publishCommand `cmd:"" help:"Write the live page of a piece: a folder for any web server, or one HTML file."`
	Mend    mendCommand    `cmd:"" help:"Say what to do about a piece that was cut too short."`
	New     newCommand     `cmd:"" help:"Begin a design file: asks what it shall be, how big, where it will stand and of which lumber."`
	Tidy    tidyCommand    `cmd:"" help:"Put the blanks and empty lines of a design file in order; nothing else changes."`
	Schema  schemaCommand  `cmd:"" help:"Print the JSON Schema of the design file, for editors."`
	Explain explainCommand `cmd:"" help:"Explain the code of a message."`
}

type design struct {
	workshop
	Region string   `help:"The edition: north america, uk and europe, or australia and new zealand (us, uk, eu, au, nz do too); where the file was drawn for unless given. It is worked out again, with what is sold there." placeholder:"REGION"`
	Units  string   `help:"inch or metric: short for the edition of North America, or of the region the file was drawn for if that is metric, else of the UK and Europe." placeholder:"UNITS"`
	File   string   `arg:"" help:"The design file." type:"path"`
	Set    []string `help:"Give a size or a choice another value, as in --set length=7'. May be given several times." placeholder:"NAME=VALUE" sep:"none"`
}

type planCommand struct {
	design
	Out      string `short:"o" help:"The folder to write to; out/ and the name of the file unless given." type:"path"`
	Paper    string `help:"letter or a4; what is sold in the region unless given." default:"" enum:",letter,a4"`
	Prices   string `help:"A price book of your own (CSV)." type:"path" placeholder:"FILE"`
	Revision string `help:"The revision printed on every page; a code made from the design unless given." placeholder:"TEXT"`
	Date     string `help:"The date printed on the front; none unless given, so that the same design gives the same bytes." placeholder:"DATE"`
	JSON     bool   `help:"Print plan.json to standard output and write nothing."`
}

type checkCommand struct {
	design
	JSON bool `help:"Print the messages as JSON."`
}

type schemaCommand struct{}

type explainCommand struct {
	Code string `arg:"" optional:"" help:"The code in brackets after a message; all codes are listed without one."`
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	os.Exit(run(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

// run is the whole command on its arguments and streams.
func run(ctx context.Context, args []string, out, errs io.Writer) int {
	var c commands
	exited := false
	parser := kong.Must(&c, kong.Name("scantling"), kong.Writers(out, errs),
		kong.Description("Computes the plan of a piece of outdoor furniture from its design file."),
		kong.Exit(func(int) { exited = true }), kong.UsageOnError())
	k, err := parser.Parse(args)
	if exited {
		return exitReady // --help
	}
	if err != nil {
		fmt.Fprintf(errs, "scantling: %v; see scantling --help\n", err)
		return exitMisuse
	}
	switch cmd, _, _ := strings.Cut(k.Command(), " "); cmd {
	case "plan":
		return c.Plan.run(ctx, out, errs)
	case "check":
		return c.Check.run(ctx, out, errs)
	case "publish":
		return c.Publish.run(ctx, out, errs)
	case "mend":
		return c.Mend.run(ctx, out, errs)
	case "new":
		return c.New.run(ctx, os.Stdin, out, errs)
	case "tidy":
		return c.Tidy.run(out, errs)
	case "schema":
		out.Write(plan.Schema())
		return exitReady
	default:
		return c.Explain.run(out, errs)
	}
}

// open reads the design file and runs the engine on it.
func (d *design) open(ctx context.Context, o plan.Options, errs io.Writer) (*plan.Plan, int) {
	s, code := d.session(&o, errs)
	if s == nil {
		return nil, code
	}
	p, err := s.Run(ctx, o)
	switch {
	case errors.Is(err, context.Canceled):
		return nil, misuse(errs, "stopped; nothing was written", nil)
	case err != nil:
		return nil, misuse(errs, err.Error(), nil)
	}
	return p, exitReady
}

// session reads the design file, and the options that go by its region.
func (d *design) session(o *plan.Options, errs io.Writer) (*plan.Session, int) {
	src, err := os.ReadFile(d.File)
	if err != nil {
		return nil, misuse(errs, "cannot read the design file", err)
	}
	s := plan.Open(shown(d.File), src)
	r, err := d.edition(s.Region())
	if err == nil {
		o.Region = &r
		err = d.options(o)
	}
	if err != nil {
		return nil, misuse(errs, err.Error(), nil)
	}
	return s, exitReady
}

// edition is the region asked for, of a file drawn for one.
func (d *design) edition(home region.Region) (region.Region, error) {
	r := home
	if d.Region != "" {
		asked, ok := region.Parse(d.Region)
		if !ok {
			return r, fmt.Errorf("--region %q is not known; write %s", d.Region, region.Short)
		}
		r = asked
	}
	switch metric := d.Units == "metric"; {
	case d.Units == "":
	case !metric && d.Units != "inch":
		return r, fmt.Errorf("--units %q is not known; write inch or metric", d.Units)
	case metric == r.Metric():
	case d.Region != "":
		return r, fmt.Errorf("--units %s does not go with --region %q, whose yards sell otherwise; leave one of them out", d.Units, d.Region)
	case metric:
		r = region.Europe
	default:
		r = region.America
	}
	return r, nil
}

// options reads the sizes and choices given, and the workshop.
func (d *design) options(o *plan.Options) error {
	for _, s := range d.Set {
		name, value, ok := strings.Cut(s, "=")
		if !ok {
			return fmt.Errorf("--set %q has no =; write it as --set length=7'", s)
		}
		o.Set = append(o.Set, plan.Setting{Name: strings.TrimSpace(name), Value: strings.TrimSpace(value)})
	}
	return d.into(o)
}

// shown is the path as a person would type it from here.
func shown(path string) string {
	if wd, err := os.Getwd(); err == nil {
		if rel, err := filepath.Rel(wd, path); err == nil && !strings.HasPrefix(rel, "..") {
			return rel
		}
	}
	return path
}

func (c *planCommand) run(ctx context.Context, out, errs io.Writer) int {
	o := plan.Options{Paper: c.Paper, Revision: c.Revision, Date: c.Date, Want: plan.Book}
	if c.JSON {
		o.Want = plan.Settled
	}
	if c.Prices != "" {
		prices, err := os.ReadFile(c.Prices)
		if err != nil {
			return misuse(errs, "cannot read the price book", err)
		}
		o.Prices, o.PricesFile = prices, shown(c.Prices)
	}
	o.Progress = func(what string) { fmt.Fprintf(errs, "%s…\n", what) }
	p, code := c.open(ctx, o, errs)
	if p == nil {
		return code
	}
	fmt.Fprint(errs, p.Messages())
	if c.JSON {
		out.Write(p.JSON())
		return verdict(p)
	}
	dir := c.Out
	if dir == "" {
		dir = filepath.Join("out", strings.TrimSuffix(filepath.Base(c.File), filepath.Ext(c.File)))
	}
	files, err := p.Files()
	if err != nil {
		return misuse(errs, err.Error(), nil)
	}
	if err := write(dir, files); err != nil {
		return misuse(errs, "cannot write the plan; what was there before is unharmed", err)
	}
	fmt.Fprintln(out, p.Summary())
	if _, err := os.Stat(filepath.Join(dir, "plan.pdf")); err == nil {
		fmt.Fprintf(out, "The plan: %s\n", shown(filepath.Join(dir, "plan.pdf")))
	}
	return verdict(p)
}

// write puts the files into dir, each whole or not at all, and removes the
// lists and drawings of an earlier plan that this one no longer has.
func write(dir string, files []plan.File) error {
	keep := map[string]bool{}
	for _, f := range files {
		path := filepath.Join(dir, filepath.FromSlash(f.Path))
		keep[path] = true
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := renameio.WriteFile(path, f.Bytes, 0o644); err != nil {
			return err
		}
	}
	for _, pattern := range []string{"lists/*.csv", "drawings/*.svg"} {
		old, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return err
		}
		for _, path := range old {
			if !keep[path] {
				if err := os.Remove(path); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

func (c *checkCommand) run(ctx context.Context, out, errs io.Writer) int {
	p, code := c.open(ctx, plan.Options{Want: plan.Settled, Everywhere: true}, errs)
	if p == nil {
		return code
	}
	if c.JSON {
		out.Write(p.SnagsJSON())
		return verdict(p)
	}
	fmt.Fprint(out, p.Messages())
	if verdict(p) == exitReady {
		fmt.Fprintf(out, "%s: checked, no errors.\n", p.File)
	}
	return verdict(p)
}

func (c *explainCommand) run(out, errs io.Writer) int {
	text, ok := plan.Explain(c.Code)
	if !ok {
		return misuse(errs, text, nil)
	}
	fmt.Fprint(out, text)
	return exitReady
}

func verdict(p *plan.Plan) int {
	if p.Snags.Errors() > 0 {
		return exitErrors
	}
	return exitReady
}

func misuse(errs io.Writer, what string, err error) int {
	if err != nil {
		what = fmt.Sprintf("%s: %v", what, err)
	}
	fmt.Fprintln(errs, "scantling: "+what)
	return exitMisuse
}
