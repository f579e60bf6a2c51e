package web

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"scantling/internal/plan"
)

// What the script believes the engine says is what the engine says: every field of
// the Go structs, by its name and its kind, and none besides.
func TestTypesAgree(t *testing.T) {
	src, err := os.ReadFile("src/engine/types.ts")
	if err != nil {
		t.Fatal(err)
	}
	said := map[string]map[string]string{}
	for _, m := range regexp.MustCompile(`(?s)export interface (\w+) \{\n(.*?)\n\}`).FindAllStringSubmatch(string(src), -1) {
		said[m[1]] = map[string]string{}
		for _, f := range regexp.MustCompile(`(?m)^  (\w+)(\??): (.+)$`).FindAllStringSubmatch(m[2], -1) {
			said[m[1]][f[1]] = f[3] + f[2]
		}
	}
	seen := map[string]bool{}
	var compare func(x reflect.Type)
	var kind func(x reflect.Type) string
	kind = func(x reflect.Type) string {
		switch x.Kind() {
		case reflect.String:
			return "string"
		case reflect.Bool:
			return "boolean"
		case reflect.Int, reflect.Float64:
			return "number"
		case reflect.Slice:
			return kind(x.Elem()) + "[]"
		case reflect.Array:
			return "[" + strings.TrimSuffix(strings.Repeat(kind(x.Elem())+", ", x.Len()), ", ") + "]"
		case reflect.Pointer:
			return kind(x.Elem())
		case reflect.Struct:
			name := x.Name()
			compare(x)
			return name
		}
		t.Fatalf("a page holds a %s, which the script does not know", x)
		return ""
	}
	compare = func(x reflect.Type) {
		if seen[x.Name()] {
			return
		}
		seen[x.Name()] = true
		fields := said[x.Name()]
		for f := range x.Fields() {
			name, rest, _ := strings.Cut(f.Tag.Get("json"), ",")
			want := kind(f.Type)
			if strings.Contains(rest, "omitempty") {
				want += "?"
			} else if f.Type.Kind() == reflect.Pointer {
				want += " | null"
			}
			if fields[name] != want {
				t.Errorf("%s.%s is %q to the script and %q to the engine", x.Name(), name, fields[name], want)
			}
			delete(fields, name)
		}
		for name := range fields {
			t.Errorf("%s.%s is not said by the engine", x.Name(), name)
		}
	}
	compare(reflect.TypeFor[plan.Page]())
	if len(seen) < 8 {
		t.Errorf("only %d structs compared", len(seen))
	}
}
