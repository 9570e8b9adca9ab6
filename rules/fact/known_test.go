package fact

import "testing"

func bodies() Field {
	return Field{Name: "body", Type: Name, Known: []Known{
		{Name: "spline-9", Doc: "nine", Also: []string{"9-spline", "nine-spline"}}, {Name: "spline-9-deep", Doc: "deep"}, {Name: "spline-23", Doc: "fine"},
		{Name: "thread-1.375", Doc: "coarse"}, {Name: "cr2032", Doc: "manganese"}, {Name: "br2032", Doc: "carbon"}, {Name: "lug-3", Doc: "lugs"},
	}}
}

// TestKnownName holds which texts stand for a known word: those spelt exactly and
// other spellings that are in use, and nothing that is only near.
func TestKnownName(t *testing.T) {
	f := bodies()
	for text, want := range map[string]string{
		"spline-9": "spline-9", "9-spline": "spline-9", "nine-spline": "spline-9", "cr2032": "cr2032",
		"spline9": "", "Spline-9": "", "spline-8": "", "": "",
	} {
		if got, ok := f.KnownName(text); got != want || ok != (want != "") {
			t.Errorf("%q stands for %q, want %q", text, got, want)
		}
	}
}

// TestSlip holds which texts are a slip of a known word. Another digit is another
// name, and a word of few letters stands for itself.
func TestSlip(t *testing.T) {
	f := bodies()
	for text, want := range map[string]string{
		"spline9": "spline-9", "splin-9": "spline-9", "spilne-9": "spline-9", "spline--9": "spline-9", "9spline": "spline-9", "9-splin": "spline-9",
		"splined-9": "spline-9", "spline-9-dep": "spline-9-deep", "deep-spline-9": "", "spline-9-depe": "spline-9-deep", "spline9deep": "spline-9-deep",
		"thread-1375": "thread-1.375", "tread-1.375": "thread-1.375", "cr-2032": "cr2032", "lug3": "lug-3", "3-lug": "lug-3",
		"spline-9": "", "9-spline": "", // known
		"spline-8": "", "spline-10": "", "spline-32": "", "thread-1.37": "", "cr2025": "", "thread-1.3750": "", // other digits
		"ar2032": "", "lr2032": "", "lag-3": "", "rug-3": "", // short words
		"spline-9-wide": "", "heron-9": "", "spindle-9": "", "keel-pack": "", "": "", "-": "", "9": "", // like none
	} {
		if got := f.Slip(text); got != want {
			t.Errorf("%q is taken for a slip of %q, want %q", text, got, want)
		}
	}
	if free := (&Field{Name: "radio", Type: Name}); free.Slip("spline9") != "" || len(free.KnownNames()) != 0 {
		t.Error("a field without a table knows words")
	}
	long := ""
	for range MaxName {
		long += "ab"
	}
	if f.Slip(long) != "" {
		t.Error("a word that is too long is near one")
	}
}

// TestKnownTwice holds that a spelling stands for one word.
func TestKnownTwice(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a table in which a spelling stands for two words is taken")
		}
	}()
	NewTable(Field{Name: "body", Type: Name, Known: []Known{{Name: "a", Also: []string{"c"}}, {Name: "b", Also: []string{"c"}}}})
}
