package words

import (
	"strings"
)

// spoken are the words this program's sentences are written with, and what they
// stand for. Most are America's; longer ones come before those they begin with.
var spoken = [...]struct {
	word    string
	concept Concept
}{
	{"carriage bolt", CarriageBolt}, {"lag screw", LagScrew}, {"deck screw", DeckScrew}, {"finish nail", FinishNail},
	{"half lap", HalfLap}, {"housing", Dado}, {"rabbet", Rabbet},
	{"lumberyard", Yard}, {"hardware store", Hardware}, {"lumber", Lumber},
	{"wrench", Wrench}, {"sawhorse", Sawhorse}, {"story stick", StoryStick}, {"router bit", RouterBit},
}

// Local returns a sentence of this program as the region says it: with its words
// for things, one or several, and its spelling. Names with underscores, what
// stands between “ and ”, which quotes a design file, and everything else stay.
func (p Pack) Local(text string) string {
	if before, rest, ok := strings.Cut(text, "“"); ok {
		quoted, after, _ := strings.Cut(rest, "”")
		if len(quoted) < len(rest) {
			quoted += "”"
		}
		return p.Local(before) + "“" + quoted + p.Local(after)
	}
	for _, s := range spoken {
		if say := p.Say(s.concept); say != s.word {
			text = put(text, s.word, say)
		}
	}
	return p.Spell(text)
}

// put writes say for every word of a text that is was, or several of it.
func put(text, was, say string) string {
	var out strings.Builder
	for {
		at := index(text, was)
		if at < 0 {
			out.WriteString(text)
			return out.String()
		}
		before, after := text[:at], text[at+len(was):]
		if strings.HasSuffix(" "+before, " a ") && strings.IndexByte("aeiou", say[0]) >= 0 {
			before = before[:len(before)-1] + "n "
		}
		out.WriteString(before)
		out.WriteString(cased(say, text[at:at+len(was)]))
		if strings.HasPrefix(after, "es") && strings.HasSuffix(was, "ch") {
			out.WriteString("s")
			after = after[2:]
		}
		text = after
	}
}

// index returns where a text first has a word, by itself or as several; -1 if it
// has not.
func index(text, word string) int {
	for from := 0; ; {
		at := strings.Index(strings.ToLower(text[from:]), word)
		if at < 0 {
			return -1
		}
		at += from
		end := at + len(word)
		for _, plural := range []string{"es", "s"} {
			if strings.HasPrefix(text[end:], plural) {
				end += len(plural)
				break
			}
		}
		if (at == 0 || !inWord(rune(text[at-1]))) && (end == len(text) || !inWord(rune(text[end]))) {
			return at
		}
		from = at + len(word)
	}
}
