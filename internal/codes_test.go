//go:build !js

package internal_test

import (
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"scantling/internal/snag"
)

// Every code that any package of the engine gives a snag is in the catalogue, and
// the catalogue holds no code that none gives.
func TestEveryCodeIsExplained(t *testing.T) {
	given := codesGiven(t)
	if len(given) < 80 {
		t.Fatalf("only %d codes found in the source: the search saw too little", len(given))
	}
	for _, code := range slices.Sorted(maps.Keys(given)) {
		if _, ok := snag.Explain(snag.Code(code)); !ok {
			t.Errorf("%s: the code %q is not in snag.Codes", given[code], code)
		}
	}
	for i, c := range snag.Codes() {
		if given[string(c.Code)] == "" {
			t.Errorf("the catalogue explains %q, and nothing gives it", c.Code)
		}
		if i > 0 && snag.Codes()[i-1].Code >= c.Code {
			t.Errorf("%q does not stand in alphabetical order", c.Code)
		}
	}
}

// codesGiven returns every constant of type snag.Code in the engine, and where
// one of its uses stands. Packages from outside the engine are taken as empty:
// what is wrong for that reason is passed over.
func codesGiven(t *testing.T) map[string]string {
	fset := token.NewFileSet()
	done := map[string]*types.Package{}
	given := map[string]string{}
	var load func(dir string) *types.Package
	load = func(dir string) *types.Package {
		if p, ok := done[dir]; ok {
			return p
		}
		names, err := filepath.Glob(filepath.Join(dir, "*.go"))
		if err != nil || len(names) == 0 {
			t.Fatalf("no Go files in %s (%v)", dir, err)
		}
		var files []*ast.File
		for _, name := range names {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, f)
		}
		info := &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
		conf := types.Config{Error: func(error) {}, Importer: importer(func(p string) *types.Package {
			if ours, ok := strings.CutPrefix(p, "scantling/internal/"); ok {
				return load(ours)
			}
			empty := types.NewPackage(p, path.Base(p))
			empty.MarkComplete()
			return empty
		})}
		p, _ := conf.Check("scantling/internal/"+dir, fset, files, info)
		done[dir] = p
		if dir == "snag" {
			return p // the catalogue itself
		}
		for e, tv := range info.Types {
			if tv.Value == nil || tv.Value.Kind() != constant.String {
				continue
			}
			code := constant.StringVal(tv.Value)
			_, known := snag.Explain(snag.Code(code)) // package expr has codes as strings
			if tv.Type.String() == "scantling/internal/snag.Code" || dir == "expr" && known {
				if at := fset.Position(e.Pos()).String(); given[code] == "" || at < given[code] {
					given[code] = at
				}
			}
		}
		return p
	}
	dirs, err := filepath.Glob("*")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range dirs {
		if files, _ := filepath.Glob(filepath.Join(d, "*.go")); len(files) > 0 {
			load(d)
		}
	}
	return given
}

type importer func(string) *types.Package

func (f importer) Import(p string) (*types.Package, error) { return f(p), nil }
