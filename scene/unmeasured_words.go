package scene

import (
	"strconv"
	"strings"
)

// WordsOf names values, those of one part together and the most of them by
// name: "Rear axle: tube diameter, length and 7 more; front track". They are in
// the document's order.
func WordsOf(list []Unmeasured, most int) string {
	var groups []string
	for i := 0; i < len(list); {
		k := i + 1
		for k < len(list) && list[k].Part != "" && list[k].Target == list[i].Target {
			k++
		}
		words := make([]string, 0, most)
		for _, u := range list[i:k] {
			words = append(words, u.Label)
		}
		if over := len(words) - most; over > 0 {
			words = append(words[:most-1], "and "+strconv.Itoa(over+1)+" more")
		}
		text := strings.Replace(strings.Join(words, ", "), ", and ", " and ", 1)
		if p := list[i].Part; p != "" {
			text = p + ": " + text
		}
		groups = append(groups, text)
		i = k
	}
	return strings.Join(groups, "; ")
}
