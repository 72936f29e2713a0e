package web

import (
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/app"
)

// typedef is one JSDoc type with its properties.
var (
	typedef  = regexp.MustCompile(`(?s)@typedef \{Object\} (\w+)\n(.*?)\*/`)
	property = regexp.MustCompile(`@property \{.*\} (?:\[(\w+)\]|(\w+))`)
	doWords  = regexp.MustCompile(`(?s)export const Do = Object\.freeze\(\{(.*?)\}\)`)
	doWord   = regexp.MustCompile(`(\w+): '(\w+)'`)
)

func protocolText(t *testing.T) string {
	t.Helper()
	text, err := page.ReadFile("protocol.js")
	require.NoError(t, err)
	return string(text)
}

// TestTheTwoProtocolFilesSayTheSame compares the page's types with the
// sketcher's, name by name.
func TestTheTwoProtocolFilesSayTheSame(t *testing.T) {
	inJS := map[string][]string{}
	for _, m := range typedef.FindAllStringSubmatch(protocolText(t), -1) {
		for _, p := range property.FindAllStringSubmatch(m[2], -1) {
			inJS[m[1]] = append(inJS[m[1]], p[1]+p[2])
		}
	}
	for _, v := range []any{app.Command{}, app.Reply{}, app.Panels{}, app.HeightItem{}, app.MovementItem{}, app.FindingItem{}, app.MendPanel{}, app.MendWay{}, app.GapDrawing{}, app.GapPart{},
		app.JoinedItem{}, app.LoweredItem{}, app.NearItem{}, app.KindItem{}, app.PartItem{}, app.PhotoItem{}, app.PhotoDraft{}, app.PhotoPlace{},
		app.PhotoDraftPoint{}, app.PhotoDraftCheck{}, app.PhotoReport{}, app.Ask{}, app.Arrange{}, app.Form{}, app.FormField{},
		app.VariantItem{}, app.ComparePanel{}, app.CompareRow{}, app.CompareDiffers{}, app.ShelfPanel{}, app.ShelfTotal{}, app.ShelfItem{}, app.ReadyItem{}, app.NeedsPanel{}, app.NeedRow{}, app.NeedPair{},
		app.SeeItems{}, app.TapeItem{}, app.TapingItem{}, app.CheckedItem{}, app.ShowItem{}} {
		typ := reflect.TypeOf(v)
		var inGo []string
		for i := range typ.NumField() {
			name, _, _ := strings.Cut(typ.Field(i).Tag.Get("json"), ",")
			inGo = append(inGo, name)
		}
		assert.Equal(t, inGo, inJS[typ.Name()], typ.Name())
	}
}

// silentPage is a page that only listens.
type silentPage struct{}

func (silentPage) Panels(string)               {}
func (silentPage) Wake(int)                    {}
func (silentPage) Save(string, string, string) {}
func (silentPage) NowMS() float64              { return 0 }

// TestTheSketcherKnowsEveryCommandOfThePage sends each one empty: it may be
// refused for what it lacks, never for its name.
func TestTheSketcherKnowsEveryCommandOfThePage(t *testing.T) {
	a, err := app.New(silentPage{}, func(string, float64, bool) float64 { return 10 })
	require.NoError(t, err)
	unknown := func(do string) bool {
		text, err := json.Marshal(app.Command{Do: do})
		require.NoError(t, err)
		return strings.Contains(a.Send(string(text)), "There is no command")
	}
	assert.True(t, unknown("nonsense"), "an unknown command is told")
	words := doWord.FindAllStringSubmatch(doWords.FindStringSubmatch(protocolText(t))[1], -1)
	assert.Greater(t, len(words), 15)
	for _, m := range words {
		assert.Equal(t, m[1], m[2])
		assert.False(t, unknown(m[2]), m[2])
	}
}
