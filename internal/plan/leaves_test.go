package plan

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"scantling/internal/board"
	"scantling/internal/measure"
	"scantling/internal/shop"
	"scantling/internal/snag"
)

// A leaf is one thing the readings say, under a path that says where: a printed
// number, or words and counts.
type leaf struct {
	number *shop.Shown
	words  string
}

func (l leaf) String() string {
	if l.number != nil {
		return fmt.Sprintf("%s (%.17g)", l.number.Text, l.number.Exact.V)
	}
	return l.words
}

// near reports whether two leaves read the same, their exact values apart by no
// more than sums done in another order make, and the nanometre a width is rounded
// to.
func (l leaf) near(m leaf) bool {
	if l.number == nil || m.number == nil {
		return l.String() == m.String()
	}
	x, y := l.number.Exact, m.number.Exact
	within := 1e-8 * math.Abs(x.V)
	if x.D == measure.DimLength {
		within = max(within, 1)
	}
	return l.number.Text == m.number.Text && l.number.Origin == m.number.Origin && x.D == y.D &&
		math.Abs(x.V-y.V) <= within
}

// leaves takes readings apart into everything they say. Boards, parts, steps and
// the like stand under what they are called rather than under their place in a
// list, so that one more slat renames nothing else.
func leaves(r *shop.Readings) map[string]leaf {
	out := map[string]leaf{}
	gather(reflect.ValueOf(*r), "", out)
	return out
}

func gather(v reflect.Value, path string, out map[string]leaf) {
	put := func(l leaf) {
		for p, n := path, 2; ; n++ {
			if _, taken := out[p]; !taken {
				out[p] = l
				return
			}
			p = path + "#" + strconv.Itoa(n)
		}
	}
	switch x := v.Interface().(type) {
	case shop.Shown:
		put(leaf{number: &x})
		return
	case *board.Board, *snag.Snag:
		return // not printed
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			gather(v.Elem(), path, out)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if f.IsExported() && f.Name != "From" && f.Name != "Axes" && f.Name != "Corners" { // where a number is from, and bare geometry
				gather(v.Field(i), path+"."+f.Name, out)
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			gather(v.Index(i), path+"["+name(v.Index(i), i)+"]", out)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			gather(v.MapIndex(k), path+"["+k.String()+"]", out)
		}
	case reflect.Float64:
		put(leaf{words: strconv.FormatFloat(math.Round(v.Float()*1e6)/1e6+0, 'f', -1, 64)})
	default:
		put(leaf{words: fmt.Sprint(v.Interface())})
	}
}

// name is what an element of a list goes by.
func name(v reflect.Value, i int) string {
	switch x := v.Interface().(type) {
	case *shop.Part:
		return string(x.Master)
	case *shop.BoardReading:
		return string(x.ID)
	case shop.Size:
		return x.Name
	case shop.StockReading:
		return x.Name
	case shop.BuyLine:
		if x.Length != nil {
			return x.What + " " + x.Length.Text
		}
		return x.What
	case shop.CutReading:
		return x.Name + " " + x.Words[0].Words
	case shop.HoleReading:
		return x.Kind + " of " + x.Joint + " in " + x.Face + " from " + x.End + " and " + x.Rim
	case shop.SawBoard:
		return x.Stock
	case shop.StepPart:
		return strings.Join(x.Spoken, ", ")
	case shop.Step:
		return x.Name
	case shop.BoardMarks:
		return string(x.Board)
	case shop.Joint:
		return x.Name
	case shop.JointPair:
		return string(x.A) + "+" + string(x.B)
	}
	return strconv.Itoa(i)
}

// paths are those of either, in order.
func paths(a, b map[string]leaf) []string {
	all := map[string]bool{}
	for p := range a {
		all[p] = true
	}
	for p := range b {
		all[p] = true
	}
	return slices.Sorted(maps.Keys(all))
}
