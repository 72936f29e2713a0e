package scene

import (
	"fmt"
	"sort"
)

// unmeasured checks that every key names a value the document has, once.
func (c *checker) unmeasured() {
	keys := c.doc.Unmeasured
	if n := len(keys); n > maxUnmeasured {
		c.fail("/unmeasured", fmt.Sprintf("at most %d values", maxUnmeasured), fmt.Sprintf("%d", n))
		return
	}
	seen := make(map[string]bool, len(keys))
	for i, k := range keys {
		if _, ok := c.doc.rank(k, c.index); !ok {
			c.fail(below("/unmeasured", i), "a value of the vehicle, a height, a part or a movement, such as part:ID/size/length_mm", quote(k))
		}
		if seen[k] {
			c.fail(below("/unmeasured", i), "each value once", quote(k)+" again")
		}
		seen[k] = true
	}
}

// unmeasured writes the list, a key to a line, sorted.
func (w *writer) unmeasured(keys []string) {
	if len(keys) == 0 {
		return
	}
	sorted := append([]string(nil), keys...)
	sort.Strings(sorted)
	w.list("unmeasured", len(sorted), func(i int) { w.item(text(sorted[i])) })
}

func unmeasuredSchema() obj {
	const (
		id   = "[A-Za-z0-9_-]{1,64}"
		axis = "/[012]"
	)
	return obj{"type": "array", "maxItems": maxUnmeasured, "uniqueItems": true,
		"description": "Values that are defaults or guesses: the target and the field as an edit names them.",
		"items": obj{"type": "string", "pattern": "^(vehicle/(wheelbase_mm|(front|rear)/[a-z_/]+)|height:" + id + "/(front|rear)_mm|" +
			"part:" + id + "/((at_mm|turn_deg)" + axis + "|size/[a-z0-9_]+)|movement:" + id + "/((at_mm|axis)" + axis + "|from|to))$"}}
}
