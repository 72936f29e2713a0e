package app

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// settled lets frames pass until the check, and an open comparison, are done.
func settled(t testing.TB, a *App) {
	t.Helper()
	for range 2000 {
		frame(a)
		if a.checked == a.model && (!a.variants.comparing || a.variants.done && a.variants.of == a.doc) {
			frame(a)
			return
		}
	}
	t.Fatal("it never comes to its end")
}

// wholeFile is the document as it would be saved.
func wholeFile(t testing.TB, a *App) *scene.Document {
	t.Helper()
	doc, err := scene.Decode([]byte(send(t, a, Command{Do: "save"}).Text))
	require.NoError(t, err)
	return doc
}

// Editing while a variant is shown changes the variant alone; switching shows
// the one or the other with its own findings; reload brings the same back.
func TestEditsGoIntoTheShownVariant(t *testing.T) {
	a, page := yard(t)
	settled(t, a)
	drawn := page.last(t)
	require.Empty(t, drawn.Variants)
	at := atMM(t, a, tank)
	send(t, a, Command{Do: "variant_new", Text: "Tank in the middle"})
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "0"})
	settled(t, a)
	p := page.last(t)
	require.Equal(t, "tank-in-the-middle", p.Shown)
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	require.Contains(t, page.last(t).Form.Sub, "In the variant “Tank in the middle”.")
	send(t, a, Command{Do: "select"})
	require.Equal(t, []VariantItem{{Name: "As drawn"}, {ID: "tank-in-the-middle", Name: "Tank in the middle", Shown: true}}, p.Variants)
	require.NotEqual(t, drawn.Headline, p.Headline, "the tank meets the driveshaft there")

	doc := wholeFile(t, a)
	require.Equal(t, at, doc.Parts[a.partIndex(tank)].AtMM)
	require.Len(t, doc.Variants[0].Parts, 1)

	send(t, a, Command{Do: "variant"})
	frame(a)
	require.Equal(t, at, atMM(t, a, tank))
	require.Equal(t, drawn.Headline, page.last(t).Headline, "known from before: no check is waited for")
	require.Equal(t, drawn.Findings, page.last(t).Findings)

	// What is kept opens again as it was shown.
	send(t, a, Command{Do: "variant", Key: "tank-in-the-middle"})
	kept := page.saved[len(page.saved)-1]
	send(t, a, Command{Do: "open", Text: kept})
	require.Zero(t, atMM(t, a, tank)[1])
	settled(t, a)
	require.Equal(t, "tank-in-the-middle", page.last(t).Shown)

	require.Contains(t, try(t, a, Command{Do: "variant", Key: "nowhere"}).Error, "no variant")
	require.Contains(t, try(t, a, Command{Do: "variant_new", Text: " "}).Error, "needs a name")
}

// Undo goes to where the step was made, and making, renaming, deleting and
// taking over are steps.
func TestVariantsAreUndone(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "variant_new", Text: "One"})
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_z", Text: "90"})
	send(t, a, Command{Do: "variant"})
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "name", Text: "Big tank"})
	send(t, a, Command{Do: "undo"})
	require.Empty(t, a.doc.Shown)
	send(t, a, Command{Do: "undo"})
	require.Equal(t, "one", a.doc.Shown)
	require.Equal(t, 40.0, atMM(t, a, tank)[2])
	send(t, a, Command{Do: "redo"})
	require.Equal(t, 90.0, atMM(t, a, tank)[2])
	for _, c := range []Command{
		{Do: "variant_set", Key: "one", Field: "name", Text: "Higher"}, {Do: "variant_set", Key: "one", Field: "note", Text: "Clear of the shaft."},
		{Do: "variant_take", Key: "one"}, {Do: "variant_drop", Key: "as-drawn-before"},
	} {
		before := string(scene.Encode(a.doc))
		send(t, a, c)
		after := string(scene.Encode(a.doc))
		require.NotEqual(t, before, after, c.Do)
		settled(t, a)
		require.NotEmpty(t, page.last(t).Undo)
		send(t, a, Command{Do: "undo"})
		require.Equal(t, string(scene.Encode(wholeOf(t, before))), string(scene.Encode(a.doc.Whole())), c.Do)
		send(t, a, Command{Do: "redo"})
		require.Equal(t, after, string(scene.Encode(a.doc)), c.Do)
	}
	require.Equal(t, 90.0, atMM(t, a, tank)[2], "it is the one drawn now")
	require.Empty(t, a.doc.Whole().Variants)
}

// wholeOf reads a file; what is shown is left as undo shows it.
func wholeOf(t testing.TB, text string) *scene.Document {
	t.Helper()
	doc, err := scene.Decode([]byte(text))
	require.NoError(t, err)
	return doc
}

// An edit of the drawn one that a variant could not go along with is refused,
// and says which.
func TestAnEditThatAVariantCannotFollowIsRefused(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "variant_new", Text: "Nose down"})
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "front_frame_height", Text: "-300"})
	send(t, a, Command{Do: "variant"})
	before := string(scene.Encode(a.doc))
	r := try(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear_frame_height", Text: "500"})
	require.Contains(t, r.Error, "variant Nose down would not hold")
	require.Equal(t, before, string(scene.Encode(a.doc)))
}

// The comparison is worked out in slices while frames go on, and reads what the
// command line prints.
func TestTheComparisonOnTheSheet(t *testing.T) {
	a, page := yard(t)
	page.step = 1 // a clock that makes slices short
	send(t, a, Command{Do: "variant_new", Text: "Tank in the middle"})
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "0"})
	require.Nil(t, a.panels().Compare)
	send(t, a, Command{Do: "compare", On: true})
	frame(a)
	require.NotEmpty(t, a.panels().Compare.Progress)
	settled(t, a)
	c := page.last(t).Compare
	require.Empty(t, c.Progress)
	require.Equal(t, []string{"As drawn", "Tank in the middle"}, c.Heads)
	require.Equal(t, []string{"Air tank: 150 to the right"}, c.Differs[0].Lines)
	pair := -1
	for i, r := range c.Rows {
		if r.Label == "Driveshaft and air tank, need 25" {
			pair = i
		}
	}
	require.GreaterOrEqual(t, pair, 0)
	require.Equal(t, []string{"tight", "touch"}, c.Rows[pair].Marks)
	// Switching afterwards waits for nothing: its answers are there.
	send(t, a, Command{Do: "variant"})
	frame(a)
	require.Same(t, a.model, a.checked)
	send(t, a, Command{Do: "compare"})
	settled(t, a)
	require.Nil(t, page.last(t).Compare)
}

// From the list to the scene and back, with its mass, price and state.
func TestTheShelf(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "shelf", On: true})
	send(t, a, Command{Do: "edit", Target: "scene", Field: "currency", Text: "USD"})
	send(t, a, Command{Do: "edit", Target: "scene", Field: "budget", Text: "200"})
	send(t, a, Command{Do: "shelf_add", Kind: "battery", Text: "bci_27"})
	settled(t, a)
	f := page.last(t).Form
	require.Equal(t, "shelf:battery", f.Target)
	require.Equal(t, "Battery, group 27", f.Title)
	send(t, a, Command{Do: "edit", Target: f.Target, Field: "price", Text: "240"})
	send(t, a, Command{Do: "edit", Target: f.Target, Field: "mass_kg", Text: "21 kg"})
	send(t, a, Command{Do: "edit", Target: f.Target, Field: "state", Text: "to_order"})
	settled(t, a)
	s := page.last(t).Shelf
	require.Len(t, s.Own, 1)
	require.Equal(t, "Battery, 21 kg, 240 USD", s.Own[0].About)
	require.Equal(t, []string{"Battery, group 27 (battery): 240 USD", "Together: 240 USD"}, s.Order)

	send(t, a, Command{Do: "shelf_place", Key: "battery"})
	settled(t, a)
	p := page.last(t)
	require.Equal(t, "part:battery", p.Form.Target)
	require.Empty(t, p.Shelf.Own)
	require.Contains(t, p.Shelf.Totals[1].Text, "40 USD over the budget of 200 USD")
	require.Equal(t, "tight", p.Shelf.Totals[1].Mark)
	require.Contains(t, try(t, a, Command{Do: "shelf_place", Key: "battery"}).Error, "placed already")

	send(t, a, Command{Do: "shelf_keep", Part: tank})
	send(t, a, Command{Do: "delete", Part: "battery"})
	settled(t, a)
	require.Len(t, page.last(t).Shelf.Own, 2)
	send(t, a, Command{Do: "form", Text: "shelf:battery"})
	send(t, a, Command{Do: "shelf_drop", Key: "battery"})
	settled(t, a)
	require.Nil(t, page.last(t).Form)
	for _, c := range []Command{{Do: "form", Text: "shelf:battery"}, {Do: "shelf_place", Key: "battery"}, {Do: "shelf_drop", Key: "battery"},
		{Do: "shelf_keep", Part: "battery"}, {Do: "shelf_add", Kind: "jet"}, {Do: "shelf_add", Kind: "box", Text: "bci_27"}} {
		require.NotEmpty(t, try(t, a, c).Error, "%+v", c)
	}
}

// The fields of mass, price and state stand in every part's form, in the unit
// that is shown.
func TestStockFieldsOfAPart(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "mass_kg", Text: "10"})
	send(t, a, Command{Do: "units", Text: "in"})
	settled(t, a)
	got := map[string]FormField{}
	for _, f := range page.last(t).Form.Fields {
		if f.Group == stockGroup {
			got[f.Field] = f
		}
	}
	require.Equal(t, "22.05", got["mass_kg"].Value) // 10 kg / 0.45359237
	require.Equal(t, "lb", got["mass_kg"].Unit)
	require.Equal(t, "choice", got["state"].Type)
	require.Equal(t, "shelf_keep", got["keep"].Action.Do)
	text, err := json.Marshal(page.last(t).Ready)
	require.NoError(t, err)
	require.Equal(t, "[]", string(text), "sent once only")
	require.NotEmpty(t, readyItems())
}
