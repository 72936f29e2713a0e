package fitment

import "sort"

// LadderFormat is the format of a ladder's JSON, which ladder.schema.json
// describes.
const LadderFormat = "scrubline-ladder"

type (
	jsonLadder struct {
		Format    string     `json:"format"`
		Version   int        `json:"version"`
		Scene     string     `json:"scene"`
		Direction string     `json:"direction"`
		Ends      Ends       `json:"ends"`
		Without   []string   `json:"without"`
		GoesTo    jsonLevel  `json:"goes_to"`
		StoppedBy int        `json:"stopped_by"`
		Meets     int        `json:"meets"`
		Rungs     []jsonRung `json:"rungs"`
		Struck    []jsonRung `json:"struck"`
		Undecided []jsonPair `json:"undecided"`
	}
	jsonRung struct {
		Kind    RungKind   `json:"kind"`
		Key     string     `json:"key,omitempty"`
		Parts   []string   `json:"parts"`
		Service string     `json:"service,omitempty"`
		End     string     `json:"end,omitempty"`
		Limit   LimitKind  `json:"limit,omitempty"`
		NeedMM  *float64   `json:"need_mm,omitempty"`
		At      jsonLevel  `json:"at"`
		Level   *jsonLevel `json:"level_at"`
		AtRide  bool       `json:"holds_at_ride"`
		Began   *jsonLevel `json:"began,omitempty"`
		Still   bool       `json:"same_at_every_height"`
		Further jsonLevel  `json:"further"`
		Height  string     `json:"height,omitempty"`
		Locked  []string   `json:"locked,omitempty"`
		Text    string     `json:"text"`
		Caution string     `json:"caution,omitempty"`
	}
	jsonPair struct {
		A string `json:"a"`
		B string `json:"b"`
	}
)

// LadderJSON is a ladder of this model, indented, ending in a newline. The same
// document and the same question give the same bytes on every build.
func (m *Model) LadderJSON(l *Ladder) []byte {
	out := jsonLadder{Format: LadderFormat, Version: ReportVersion, Scene: m.Doc.Name, Direction: "down", Ends: l.Ask.Ends,
		Without: []string{}, GoesTo: levelJSON(l.GoesTo()), StoppedBy: l.Stop, Meets: l.Meets, Struck: []jsonRung{}, Undecided: []jsonPair{}}
	if l.Ask.Up {
		out.Direction = "up"
	}
	for cause, struck := range l.Ask.Without {
		if struck {
			out.Without = append(out.Without, cause)
		}
	}
	sort.Strings(out.Without)
	w := NewWords(m.Doc)
	for i := range l.Rungs {
		out.Rungs = append(out.Rungs, rungJSON(w, &l.Rungs[i]))
	}
	for i := range l.Struck {
		out.Struck = append(out.Struck, rungJSON(w, &l.Struck[i]))
	}
	for _, u := range l.Undecided {
		out.Undecided = append(out.Undecided, jsonPair{u.A, u.B})
	}
	return indented(out)
}

func rungJSON(w *Words, r *Rung) jsonRung {
	j := jsonRung{Kind: r.Kind, Key: r.Cause, Parts: append([]string{}, r.Parts...), End: r.End, At: levelJSON(r.At),
		AtRide: r.AtRide, Still: r.Still, Further: levelJSON(r.Further), Height: r.Height, Locked: r.Locked, Text: w.RungTitle(r)}
	if r.LevelAt != nil {
		at := levelJSON(*r.LevelAt)
		j.Level = &at
	}
	if r.Began != nil {
		at := levelJSON(*r.Began)
		j.Began = &at
	}
	if f := r.Finding; f != nil {
		need := round(f.NeedMM)
		j.Service, j.NeedMM, j.Caution = f.Service, &need, f.Caution
	}
	if r.Limit != nil {
		j.Limit = r.Limit.Kind
	}
	return j
}
