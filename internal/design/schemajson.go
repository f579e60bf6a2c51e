package design

import (
	"bytes"
	"encoding/json"
	"strings"
)

// Schema returns the JSON Schema (draft 2020-12) of a design file, for editors
// that complete keys and show what they mean. It comes from the same tables the
// file is read by. What it lets pass may still be refused: it knows keys and
// words, not measures.
func Schema() []byte {
	s := &schema{known: map[*table]string{}}
	root := s.object(pieceTable)
	var b strings.Builder
	b.WriteString(`{"$schema":"https://json-schema.org/draft/2020-12/schema","title":"A design file",`)
	b.WriteString(root[1 : len(root)-1])
	b.WriteString(`,"$defs":{"measure":{"type":["string","number"],"description":"a measure: 5 1/2\", length - 2 * overhang, against leg.back"},` +
		`"name":{"type":"string"},"names":{"anyOf":[{"type":"string"},{"type":"array"}]}`)
	for _, d := range s.defs {
		b.WriteString("," + quoted(d.name) + ":" + d.text)
	}
	b.WriteString("}}")
	var out bytes.Buffer
	if err := json.Indent(&out, []byte(b.String()), "", "  "); err != nil {
		panic("design: the schema is no JSON: " + err.Error())
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// A schema gathers the definitions the root refers to, in the order they are
// met.
type schema struct {
	known map[*table]string
	defs  []definition
}

type definition struct{ name, text string }

func (s *schema) refTo(t *table) string {
	name, ok := s.known[t]
	if !ok {
		name = strings.ReplaceAll(strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(t.what, "a "), "an "), "the "), " ", "-")
		s.known[t] = name
		i := len(s.defs)
		s.defs = append(s.defs, definition{name: name})
		s.defs[i].text = s.object(t)
	}
	return `{"$ref":` + quoted("#/$defs/"+name) + `}`
}

func (s *schema) object(t *table) string {
	var props, need []string
	for _, k := range t.keys {
		props = append(props, quoted(k.name)+":"+s.key(&k))
		if k.need {
			need = append(need, quoted(k.name))
		}
	}
	out := `{"type":"object","additionalProperties":false,"properties":{` + strings.Join(props, ",") + "}"
	if len(need) > 0 && t != partTable && t != rowTable && t != fieldTable {
		out += `,"required":[` + strings.Join(need, ",") + "]"
	}
	return out + "}"
}

// key returns the schema of one key's value, with its meaning.
func (s *schema) key(k *key) string {
	var body string
	switch k.form {
	case asWords, asProse, asPhrase:
		body = `"type":["string","number"]`
		if k.form == asPhrase && (k.name == "lean" || k.name == "slope" || k.name == "swing") {
			body = `"anyOf":[{"type":"string"},{"type":"array","items":{"type":"string"}}]`
		}
	case asMeasure:
		body = `"$ref":"#/$defs/measure"`
	case asRefs, asNames:
		body = `"$ref":"#/$defs/names"`
	case asWord:
		var words []string
		for _, w := range k.words {
			words = append(words, quoted(w))
		}
		body = `"enum":[` + strings.Join(words, ",") + "]"
	case asWordOr:
		body = `"type":"string"`
	case asTable:
		ref := s.refTo(k.table)
		body = ref[1 : len(ref)-1]
		if k.table == gapTable || k.table == counterboreTable {
			body = `"anyOf":[{"$ref":"#/$defs/measure"},` + ref + "]"
		}
	case asNamed:
		body = `"type":"object","additionalProperties":` + s.refTo(k.table)
	case asList:
		body = `"type":"array","items":` + s.refTo(k.table)
	case asFree:
		body = `"type":"object","additionalProperties":{"$ref":"#/$defs/measure"}`
	default:
		body = s.several(k)
	}
	return "{" + body + `,"description":` + quoted(k.doc) + "}"
}

// several returns the forms of a key that takes more than one.
func (s *schema) several(k *key) string {
	const measure = `{"$ref":"#/$defs/measure"}`
	switch k.name {
	case "ends":
		end := s.refTo(endTable)
		one := `{"anyOf":[` + measure + "," + end + `,{"type":"array","items":{"anyOf":[` + measure + "," + end + `]}}]}`
		var props []string
		for _, side := range append([]string{"from", "to"}, sides...) {
			props = append(props, quoted(side)+":"+one)
		}
		return `"type":"object","additionalProperties":false,"properties":{` + strings.Join(props, ",") + "}"
	case "runs":
		return `"anyOf":[{"type":"string"},{"type":"object","properties":{"from":{"type":"string"},"to":{"type":"string"}}}]`
	case "uses":
		use := (&schema{known: s.known}).object(&table{"a use", useKeys})
		return `"type":"object","additionalProperties":` + strings.Replace(use, `"additionalProperties":false`, `"additionalProperties":{"$ref":"#/$defs/measure"}`, 1)
	case "except":
		return `"type":"object","additionalProperties":` + s.refTo(partTable)
	case "points":
		return `"type":"object","additionalProperties":{"anyOf":[{"type":"string"},` + s.refTo(k.table) + `]}`
	case "corners":
		return `"type":"array","items":{"type":"string"}`
	case "middle", "at", "leave out", "left", "right", "front", "back", "top", "bottom":
		return `"anyOf":[` + measure + `,{"type":"array","items":` + measure + `}]`
	}
	return `"$ref":"#/$defs/names"`
}

func quoted(s string) string {
	b, err := json.Marshal(s)
	if err != nil {
		panic("design: " + err.Error())
	}
	return string(b)
}
