package shop

import (
	"reflect"

	"scantling/internal/words"
)

// Speak has everything that is read say the words of a region: the sentences, and
// the names of what is bought. It comes last, since price books, pictures and
// checks know things by the names this program has for them. What a mend says is
// left alone: it quotes the design file, whose words are the same everywhere.
func (r *Readings) Speak(p words.Pack) {
	speak(reflect.ValueOf(r).Elem(), p)
	for _, list := range [][]BuyLine{r.Buy.Hardware, r.Buy.Goods} {
		for i := range list {
			list[i].What = p.Fastener(list[i].What)
		}
	}
	for i := range r.Steps {
		for k := range r.Steps[i].Fasten {
			f := &r.Steps[i].Fasten[k]
			f.What = p.Fastener(f.What)
		}
	}
	for i := range r.Notes {
		n := &r.Notes[i]
		n.What, n.Why = p.Local(n.What), p.Local(n.Why)
	}
	for _, pt := range r.Parts {
		for _, cut := range pt.Ends {
			if cut != nil {
				cut.Note = p.Local(cut.Note)
			}
		}
	}
}

var (
	textType = reflect.TypeFor[Text]()
	mine     = textType.PkgPath()
)

// speak turns all Text below v.
func speak(v reflect.Value, p words.Pack) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() && v.Type().Elem().PkgPath() == mine {
			speak(v.Elem(), p)
		}
	case reflect.Struct:
		if v.Type().PkgPath() == mine {
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					speak(v.Field(i), p)
				}
			}
		}
	case reflect.Slice, reflect.Array:
		if v.Type() == textType {
			for i := range v.Len() {
				span := v.Index(i).Addr().Interface().(*Span)
				if span.Shown == nil {
					span.Words = p.Local(span.Words)
				}
			}
			return
		}
		for i := range v.Len() {
			speak(v.Index(i), p)
		}
	}
}
