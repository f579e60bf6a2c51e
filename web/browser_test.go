package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"scantling/internal/plan"
)

// chromium is one browser for all tests; each test has a tab of it.
var chromium context.Context

func TestMain(m *testing.M) {
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.NoSandbox,
		// A picture is drawn by the processor where there is no graphics card.
		chromedp.Flag("disable-gpu", false), chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true))
	allocator, stop := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, end := chromedp.NewContext(allocator)
	chromium = ctx
	if err := chromedp.Do(ctx); err != nil {
		fmt.Fprintln(os.Stderr, "no browser: install chromium, as make tools does:", err)
		os.Exit(1)
	}
	code := m.Run()
	end()
	stop()
	os.Exit(code)
}

// design is an example, ready to be published.
func design(t testing.TB, name string) *Design {
	t.Helper()
	src, err := os.ReadFile(filepath.Join("..", "examples", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plan.Open(name+".yaml", src).Run(context.Background(), plan.Options{Want: plan.Book})
	if err != nil {
		t.Fatal(err)
	}
	return &Design{File: name + ".yaml", Source: src, Page: p.Page(plan.PageOptions{})}
}

// folder publishes a design into a new folder.
func folder(t testing.TB, d *Design) string {
	t.Helper()
	files, err := Folder(d)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f.Path), f.Bytes, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// A tab is a page in the browser, watched: whatever it fetches from elsewhere, and
// whatever it complains of, fails the test.
type tab struct {
	testing.TB
	ctx  context.Context
	home string

	mu       sync.Mutex
	troubles []string
}

func open(t testing.TB, url string, before ...chromedp.Action[chromedp.Void]) *tab {
	t.Helper()
	ctx, end := chromedp.NewContext(chromium)
	t.Cleanup(end)
	home, _, _ := strings.Cut(url, "#")
	b := &tab{TB: t, ctx: ctx, home: home}
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	err := chromedp.Listen(ctx, func(ev any) {
		b.mu.Lock()
		defer b.mu.Unlock()
		switch ev := ev.(type) {
		case *runtime.EventConsoleAPICalled:
			text, _ := json.Marshal(ev.Args)
			b.troubles = append(b.troubles, "console: "+string(text))
		case *runtime.EventExceptionThrown:
			text, _ := json.Marshal(ev.ExceptionDetails)
			b.troubles = append(b.troubles, "exception: "+string(text))
		case *log.EventEntryAdded:
			b.troubles = append(b.troubles, "log: "+ev.Entry.Text+" "+fmt.Sprint(ev.Entry.URL))
		case *network.EventRequestWillBeSent:
			u := ev.Request.URL
			if !strings.HasPrefix(u, b.home) && !strings.HasPrefix(u, "data:") && !strings.HasPrefix(u, "blob:") {
				b.troubles = append(b.troubles, "it fetches "+u)
			}
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	b.do(before...)
	b.do(chromedp.Navigate(url))
	return b
}

func (b *tab) do(acts ...chromedp.Action[chromedp.Void]) {
	b.Helper()
	ctx, stop := context.WithTimeout(b.ctx, 3*time.Minute)
	defer stop()
	if err := chromedp.Do(ctx, acts...); err != nil {
		b.Fatal(err)
	}
}

// js evaluates an expression; a promise is waited for.
func js[T any](b *tab, expression string) T {
	b.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		b.Fatalf("%s: %v", expression, err)
	}
	return v
}

// until waits for an expression to hold. The time is generous: it is no limit of
// what is tested but of what is still alive.
func (b *tab) until(expression string) {
	b.Helper()
	for range 1200 {
		if js[bool](b, "!!("+expression+")") {
			return
		}
		time.Sleep(100 * time.Millisecond)
	}
	b.calm()
	b.Fatalf("it never came to this: %s", expression)
}

// settled waits until everything shown is worked out, and returns the revision.
func (b *tab) settled() string {
	b.Helper()
	b.until(`document.documentElement.dataset.settled && !document.documentElement.classList.contains('unsettled')`)
	return js[string](b, `document.documentElement.dataset.settled`)
}

// calm fails if the page has complained or fetched from elsewhere.
func (b *tab) calm() {
	b.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, x := range b.troubles {
		b.Error(x)
	}
	b.troubles = nil
}

// key presses a key while something has the focus.
func (b *tab) key(selector, keys string) {
	b.Helper()
	js[bool](b, fmt.Sprintf(`(document.querySelector(%q).focus(), true)`, selector))
	b.do(chromedp.KeyEvent(keys))
}

// says is the visible text of an element, blanks made one.
func (b *tab) says(selector string) string {
	b.Helper()
	return js[string](b, fmt.Sprintf(`document.querySelector(%q).textContent.replace(/\s+/g, ' ').trim()`, selector))
}

const (
	right = kb.ArrowRight
	left  = kb.ArrowLeft
)

// The published folder does what it promises: resize, undo, link, your boards,
// ticks, steps, the plan as PDF, all without a word on the console or to anybody
// else, and without its server.
func TestAReaderResizes(t *testing.T) {
	dir := folder(t, design(t, "sorting-table"))
	server := httptest.NewServer(http.FileServer(http.Dir(dir)))
	stopped := false
	defer func() {
		if !stopped {
			server.Close()
		}
	}()
	b := open(t, server.URL+"/")
	first := b.settled()

	// One step of the first size: the front follows, then everything.
	cost := b.says(".total b")
	b.key("#size-length .tape", right)
	b.until(`document.querySelector('.facts').textContent.includes('75″ wide')`)
	longer := b.settled()
	if longer == first {
		t.Errorf("75 in long is still revision %s", first)
	}
	if got := b.says(".lead"); !strings.Contains(got, "It is 75″ long") {
		t.Errorf("the paragraph still says %q", got)
	}
	b.key("#size-length .tape", strings.Repeat(right, 7))
	b.settled()
	if got := b.says(".total b"); got == cost {
		t.Errorf("8 ft long costs no more than 6 ft: %s", got)
	}

	// The address brings back exactly this.
	link := js[string](b, `location.href`)
	sized := b.settled()
	c := open(t, link)
	if again := c.settled(); again != sized || c.says(".total") != b.says(".total") {
		t.Errorf("the link %s brings back %s, not %s", link, again, sized)
	}
	c.calm()

	// Undo, one key after another, back to the design.
	for range 8 {
		js[bool](b, `(document.querySelector('.turns button').click(), true)`)
	}
	if back := b.settled(); back != first || strings.Contains(js[string](b, `location.href`), "#") {
		t.Errorf("undone, it is %s at %s, not %s", back, js[string](b, `location.href`), first)
	}

	// Measured boards: what changed says so.
	js[bool](b, `(i => { i.value = '1 9/16'; i.dispatchEvent(new Event('change')); return true })(document.querySelector('[data-of=frame_stock][data-what=thick]'))`)
	b.until(`document.querySelector('#parts .changed')`)
	b.settled()
	if got := b.says("#changes"); !strings.Contains(got, "1 9/16″") {
		t.Errorf("the changes do not tell the measured thickness: %s", got)
	}

	// A board that is refused says why, and nothing is lost.
	js[bool](b, `(i => { i.value = 'wide'; i.dispatchEvent(new Event('change')); return true })(document.querySelector('[data-of=frame_stock][data-what=thick]'))`)
	b.until(`document.querySelector('#boards .trouble').textContent.includes('wide')`)
	js[bool](b, `(document.querySelector('.turns button').click(), true)`)
	b.settled()

	// Ticks stay on this device.
	js[bool](b, `(document.querySelector('#parts .tick').click(), true)`)

	// The plan of exactly this, as a file.
	downloads := t.TempDir()
	if _, err := chromedp.CallBrowser(b.ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: "allow", DownloadPath: downloads}); err != nil {
		t.Fatal(err)
	}

	// From here on there is no server.
	b.until(`navigator.serviceWorker.controller`)
	server.Close()
	stopped = true
	js[bool](b, `(document.querySelector('[data-take=pdf]').click(), true)`)
	b.until(`document.querySelector('.take .said').textContent.startsWith('Saved')`)
	pdf := filepath.Join(downloads, "sorting-table-plan.pdf")
	var text []byte
	for range 300 {
		if text, _ = exec.Command("pdftotext", pdf, "-").Output(); len(text) > 0 {
			break
		}
		time.Sleep(100 * time.Millisecond)
	}
	if revision := js[string](b, `document.documentElement.dataset.settled`); !bytes.Contains(text, []byte("revision "+revision)) {
		t.Errorf("the PDF is not of revision %s", revision)
	}
	b.do(chromedp.Reload())
	b.settled()
	b.key("#size-height .tape", left)
	b.until(`document.querySelector('.lead').textContent.includes('33 1/2″ high')`)
	b.settled()
	if !js[bool](b, `document.querySelector('#parts .tick').checked`) {
		t.Error("the tick is lost on reload")
	}
	b.calm()
}

// The page of one file opens from disk and does the same.
func TestOneFileFromDisk(t *testing.T) {
	page, err := OneFile(design(t, "pickers-chair"))
	if err != nil {
		t.Fatal(err)
	}
	const most = 4_500_000 // bytes, so that it goes by mail
	if len(page) > most {
		t.Errorf("the page is %d bytes, more than %d", len(page), most)
	}
	path := filepath.Join(t.TempDir(), "plan.html")
	if err := os.WriteFile(path, page, 0o644); err != nil {
		t.Fatal(err)
	}
	b := open(t, "file://"+path)
	first := b.settled()
	b.key(".ruler .tape", right)
	b.until(`location.hash.startsWith('#/')`)
	if again := b.settled(); again == first {
		t.Error("nothing changed")
	}
	js[bool](b, `(document.querySelector('[data-take=lists]').click(), true)`)
	b.until(`document.querySelector('.take .said').textContent.startsWith('Saved')`)
	b.calm()
}

// Steps are played: the picture of each is painted, and moves.
func TestStepsArePlayed(t *testing.T) {
	server := httptest.NewServer(http.FileServer(http.Dir(folder(t, design(t, "yard-gate")))))
	defer server.Close()
	b := open(t, server.URL+"/", chromedp.EmulateViewport(390, 844))
	b.settled()
	ink := `document.querySelector("#step-1 canvas").toDataURL()`
	js[bool](b, `(document.querySelector('#step-1 canvas').scrollIntoView(), true)`)
	b.until(`document.querySelector('#step-1 input[type=range]').value === '1'`)
	done := js[string](b, ink)
	js[bool](b, `(i => { i.value = '0.1'; i.dispatchEvent(new Event('input')); return true })(document.querySelector('#step-1 input[type=range]'))`)
	b.until(ink + ` !== ` + fmt.Sprintf("%q", done))
	if empty := js[string](b, `(c => { c.width = document.querySelector("#step-1 canvas").width; c.height = document.querySelector("#step-1 canvas").height; return c.toDataURL() })(document.createElement("canvas"))`); done == empty {
		t.Error("nothing is painted")
	}
	b.calm()
}

// Without a script, and without WebGL, the plan of the published size reads.
func TestThePlainForm(t *testing.T) {
	d := design(t, "herb-planter")
	server := httptest.NewServer(http.FileServer(http.Dir(folder(t, d))))
	defer server.Close()
	scriptless := chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
		return err
	})
	b := open(t, server.URL+"/", scriptless)
	text, err := chromedp.Run(b.ctx, chromedp.Text("body"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{d.Page.Glance.Title, "To buy", "At the saw", "Building it", "Everything together"} {
		if !strings.Contains(text, want) {
			t.Errorf("without a script the page does not say %q", want)
		}
	}
	drawings, err := chromedp.Run(b.ctx, chromedp.Nodes(".drawing svg"))
	if err != nil || len(drawings) < 8 {
		t.Errorf("%d drawings without a script: %v", len(drawings), err)
	}
	b.calm()

	noGL := chromedp.Func(func(ctx context.Context, _ *chromedp.Target) error {
		_, err := chromedp.Call(ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: `HTMLCanvasElement.prototype.getContext = () => null`})
		return err
	})
	c := open(t, server.URL+"/", noGL)
	c.settled()
	if !js[bool](c, `document.querySelector('[data-picture] svg') && document.querySelector('#step-1 svg') !== null`) {
		t.Error("without WebGL there is no drawing in the place of the picture")
	}
	c.calm()
}

// Nobody is left out: no violation of the accessibility rules that a program can
// check (axe-core), at the desk and on a phone.
func TestForEverybody(t *testing.T) {
	axe, err := os.ReadFile("node_modules/axe-core/axe.min.js")
	if err != nil {
		t.Fatalf("run make web: %v", err)
	}
	server := httptest.NewServer(http.FileServer(http.Dir(folder(t, design(t, "sorting-table")))))
	defer server.Close()
	for _, size := range [][2]int64{{1280, 900}, {390, 844}} {
		b := open(t, server.URL+"/", chromedp.EmulateViewport(size[0], size[1]))
		b.settled()
		js[bool](b, string(axe)+`; true`)
		found := js[[]string](b, `axe.run(document, {resultTypes: ['violations']}).then(r => r.violations.map(v => v.id + ': ' + v.help + ' ' + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160)).join(' | ')))`)
		for _, v := range found {
			t.Errorf("%d wide: %s", size[0], v)
		}
		if wide := js[bool](b, `document.documentElement.scrollWidth > document.documentElement.clientWidth`); wide {
			t.Errorf("%d wide: the page scrolls sideways", size[0])
		}
		b.calm()
	}
}
