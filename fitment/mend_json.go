package fitment

import "scrubline/scene"

// MendFormat is the format of a mend's JSON, which mend.schema.json describes.
const MendFormat = "scrubline-mend"

type (
	jsonMend struct {
		Format  string         `json:"format"`
		Version int            `json:"version"`
		Scene   string         `json:"scene"`
		Part    string         `json:"part"`
		Clear   bool           `json:"clear"`
		Stays   bool           `json:"stays"`
		Locked  bool           `json:"locked"`
		LimitMM float64        `json:"limit_mm"`
		Partial bool           `json:"partial"`
		Moves   []jsonMendMove `json:"moves"`
		Blocks  []string       `json:"in_the_way"`
		Instead []string       `json:"instead"`
		With    []string       `json:"with"`
		Joined  []string       `json:"joined"`
		Within  [][2]string    `json:"within"`
		Text    string         `json:"text"`
	}
	jsonMendMove struct {
		ByMM     [3]float64   `json:"by_mm"`
		Axis     string       `json:"about,omitempty"`
		TurnDeg  float64      `json:"turn_deg"`
		SizeMM   float64      `json:"size_mm"`
		Smallest bool         `json:"smallest"`
		TapeMM   *[3]float64  `json:"tape_mm,omitempty"`
		TapeDeg  *float64     `json:"tape_deg,omitempty"`
		Keeps    []jsonKept   `json:"keeps"`
		Parts    []jsonParted `json:"comes_away_from"`
		Text     string       `json:"text"`
	}
	jsonKept struct {
		Part   string  `json:"part"`
		Room   bool    `json:"room"`
		GapMM  float64 `json:"gap_mm"`
		NeedMM float64 `json:"need_mm"`
	}
	jsonParted struct {
		Part  string  `json:"part"`
		GapMM float64 `json:"gap_mm"`
	}
)

// MendJSON is a mend of this model, indented, ending in a newline. The same
// document and the same question give the same bytes on every build.
func (m *Model) MendJSON(d *Mend) []byte {
	w := NewWords(m.Doc)
	out := jsonMend{Format: MendFormat, Version: ReportVersion, Scene: m.Doc.Name, Part: d.Part, Clear: d.Clear, Stays: d.Stays,
		Locked: d.Locked, LimitMM: round(d.LimitMM), Partial: d.Partial, Moves: []jsonMendMove{}, Blocks: some(d.Blocks),
		Instead: some(d.Instead), With: some(d.With), Joined: some(d.Joined), Within: append([][2]string{}, d.Within...), Text: w.MendTitle(d)}
	for i := range d.Moves {
		out.Moves = append(out.Moves, w.mendMoveJSON(&d.Moves[i]))
	}
	return indented(out)
}

func (w *Words) mendMoveJSON(mv *MendMove) jsonMendMove {
	j := jsonMendMove{ByMM: rounded3(mv.ByMM), TurnDeg: round(mv.TurnDeg), SizeMM: round(mv.SizeMM), Smallest: mv.Free, Keeps: []jsonKept{}, Parts: []jsonParted{},
		Text: w.MendMove(mv)}
	if mv.TurnDeg != 0 {
		j.Axis = string("xyz"[mv.Axis])
	}
	if t := mv.Tape; t != nil && mv.TurnDeg != 0 {
		deg := round(t.TurnDeg)
		j.TapeDeg = &deg
	} else if t != nil {
		by := rounded3(t.ByMM)
		j.TapeMM = &by
	}
	for _, p := range mv.Parts {
		j.Parts = append(j.Parts, jsonParted{p.Part, round(p.GapMM)})
	}
	for _, k := range mv.Keeps {
		j.Keeps = append(j.Keeps, jsonKept{k.Part, k.Room, round(k.GapMM), round(k.NeedMM)})
	}
	return j
}

func rounded3(v scene.Vec) [3]float64 { return [3]float64{round(v[0]), round(v[1]), round(v[2])} }
