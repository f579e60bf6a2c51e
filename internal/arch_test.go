//go:build !js

// Package internal_test holds what is true of the whole engine: which package
// may import which, that none of them reaches outside, and that every
// platform computes the same bits.
package internal_test

import (
	"bufio"
	"bytes"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// layers lists the packages from the ground up: a package may import those of
// lower layers only, never a sibling.
var layers = [][]string{
	{"steady", "span", "cite", "spell", "phrase", "region"},
	{"measure", "words", "timber"}, // a slope is an arc tangent
	{"snag"},
	{"source", "expr", "geom", "lumber", "wood", "screw"},
	{"board", "tidy", "start", "frame", "stability", "moisture", "finish"},
	{"setout"},
	{"design"},
	{"joint"},
	{"part", "care", "reach", "square", "strength"},
	{"order"},
	{"shop"},
	{"prices", "cutplan", "cutcheck", "proof"},
	{"claim"},
	{"typeset"},
	{"drawing"},
	{"picture"},
	{"book", "svg", "pdf"},
	{"page"},
	{"plan"},
}

// narrower says which packages are held to less than their layer allows: a
// checker that shared code with what it checks would prove nothing.
var narrower = map[string][]string{
	"cutplan":  {"measure", "steady"},
	"cutcheck": {"measure"},
	"proof":    {"measure", "geom", "steady"},
}

// outside are imports that would let the engine see more than its inputs.
var outside = regexp.MustCompile(`^(os|net|time|math/rand|syscall|plugin|runtime/debug)(/|$)`)

func TestImportsPointDownward(t *testing.T) {
	level := map[string]int{}
	for i, l := range layers {
		for _, p := range l {
			level[p] = i
		}
	}
	seen := map[string]bool{}
	each(t, func(pkg, file string, imports []string) {
		seen[pkg] = true
		if _, ok := level[pkg]; !ok {
			t.Errorf("%s: package %s stands in no layer", file, pkg)
			return
		}
		for _, imp := range imports {
			if outside.MatchString(imp) {
				t.Errorf("%s imports %s: the engine sees nothing but its inputs", file, imp)
			}
			dep, ours := strings.CutPrefix(imp, "scantling/internal/")
			if !ours {
				if strings.HasPrefix(imp, "scantling/") {
					t.Errorf("%s imports %s, which stands above the engine", file, imp)
				}
				continue
			}
			dep, _, _ = strings.Cut(dep, "/")
			if dep == pkg {
				continue
			}
			if level[dep] >= level[pkg] {
				t.Errorf("%s: %s may not import %s (layers %d and %d)", file, pkg, dep, level[pkg], level[dep])
			}
			if allowed, ok := narrower[pkg]; ok && !has(allowed, dep) {
				t.Errorf("%s: %s may import only %v, not %s", file, pkg, allowed, dep)
			}
		}
	})
	for p := range level {
		if !seen[p] {
			t.Errorf("package %s is in the table but not in the tree", p)
		}
	}
}

// Float functions of package math that are the same bits on every platform:
// exact by IEEE 754, or only bit twiddling.
var exactMath = map[string]bool{"Sqrt": true, "Abs": true, "Floor": true, "Ceil": true, "Round": true,
	"RoundToEven": true, "Trunc": true, "Min": true, "Max": true, "IsNaN": true, "IsInf": true, "Inf": true,
	"NaN": true, "Copysign": true, "Signbit": true, "Mod": true, "Frexp": true, "Ldexp": true, "Modf": true,
	"Float64bits": true, "Float64frombits": true, "Float32bits": true, "Float32frombits": true, "Nextafter": true}

func TestOnlyExactMath(t *testing.T) {
	call := regexp.MustCompile(`\bmath\.([A-Z]\w*)\(`)
	each(t, func(pkg, file string, imports []string) {
		if !has(imports, "math") {
			return
		}
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range call.FindAllStringSubmatch(string(src), -1) {
			if !exactMath[m[1]] {
				t.Errorf("%s calls math.%s, whose last bit differs between platforms: use package steady", file, m[1])
			}
		}
	})
}

// The compiler may fuse x*y + z into one instruction with one rounding where
// the processor has it, as arm64 does, so that results differ from amd64.
func TestNoFusedInstructions(t *testing.T) {
	cmd := exec.Command("go", "build", "-gcflags=scantling/internal/...=-S", "./...")
	cmd.Env = append(os.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("build for arm64: %v\n%s", err, out[max(0, len(out)-2000):])
	}
	lines, fused := 0, regexp.MustCompile(`\tFN?M(ADD|SUB)[SD]\t`)
	place := regexp.MustCompile(`\(([^)]*\.go:\d+)\)`)
	said := map[string]bool{}
	for sc := bufio.NewScanner(bytes.NewReader(out)); sc.Scan(); lines++ {
		if fused.MatchString(sc.Text()) {
			at := "?"
			if m := place.FindStringSubmatch(sc.Text()); m != nil {
				at = filepath.Base(filepath.Dir(m[1])) + "/" + filepath.Base(m[1])
			}
			if !said[at] {
				said[at] = true
				t.Errorf("%s: a product and a sum are fused on arm64; write float64(x*y) + z", at)
			}
		}
	}
	if lines < 10000 {
		t.Fatalf("only %d lines of assembly seen: the check looked at nothing", lines)
	}
}

// each calls visit for every non-test Go file under this folder.
func each(t *testing.T, visit func(pkg, file string, imports []string)) {
	t.Helper()
	files := 0
	err := filepath.WalkDir(".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(p, ".go") || strings.HasSuffix(p, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		var imports []string
		for _, im := range f.Imports {
			s, _ := strconv.Unquote(im.Path.Value)
			imports = append(imports, s)
		}
		pkg, _, _ := strings.Cut(path.Clean(filepath.ToSlash(p)), "/")
		visit(pkg, p, imports)
		files++
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files == 0 {
		t.Fatal("no Go files found")
	}
}

func has(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}
