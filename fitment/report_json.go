package fitment

import (
	"bytes"
	"encoding/json"
	"math"

	"scrubline/scene"
)

// The JSON of a report. Lengths are millimetres in body axes, rounded to a
// tenth of a micrometre; a bound is rounded down, so that it stays a bound.
// report.schema.json describes it.
type (
	jsonReport struct {
		Format     string           `json:"format"`
		Version    int              `json:"version"`
		Scene      string           `json:"scene"`
		Variant    string           `json:"variant,omitempty"`
		Findings   []jsonFinding    `json:"findings"`
		Groups     []jsonGroup      `json:"groups"`
		Undecided  []jsonUndecided  `json:"undecided"`
		Lowered    []jsonLowered    `json:"lowered"`
		Limits     []jsonLimit      `json:"limits"`
		Suspension []jsonSuspension `json:"suspension"`
		Ground     []jsonClearance  `json:"ground"`
		Summary    jsonSummary      `json:"summary"`
	}
	jsonFinding struct {
		A          string        `json:"a"`
		B          string        `json:"b"`
		Status     Status        `json:"status"`
		Service    string        `json:"service,omitempty"`
		For        string        `json:"for,omitempty"`
		GapMM      float64       `json:"gap_mm"`
		BoundMM    float64       `json:"bound_mm"`
		NeedMM     float64       `json:"need_mm"`
		NeedSource string        `json:"need_source"`
		At         jsonState     `json:"at"`
		Still      bool          `json:"same_at_every_height"`
		PointsMM   [2][3]float64 `json:"points_mm"`
		Sure       bool          `json:"sure"`
		AtHeights  []jsonHeight  `json:"at_heights"`
		Touch      []jsonSpan    `json:"contact_heights"`
		Short      []jsonSpan    `json:"short_heights"`
		LevelTouch []jsonSpan    `json:"contact_heights_level"`
		LevelShort []jsonSpan    `json:"short_heights_level"`
		Caution    string        `json:"caution,omitempty"`
		Unmeasured []string      `json:"unmeasured,omitempty"`
	}
	jsonState struct {
		FL    float64    `json:"fl_mm"`
		FR    float64    `json:"fr_mm"`
		RL    float64    `json:"rl_mm"`
		RR    float64    `json:"rr_mm"`
		Steer float64    `json:"steer_deg"`
		Moves []jsonMove `json:"movements"`
	}
	jsonMove struct {
		ID   string  `json:"id"`
		By   float64 `json:"by"`
		Unit string  `json:"unit"`
	}
	jsonHeight struct {
		Height string  `json:"height"`
		GapMM  float64 `json:"gap_mm"`
	}
	jsonUndecided struct {
		A       string  `json:"a"`
		B       string  `json:"b"`
		GapMM   float64 `json:"gap_mm"`
		BoundMM float64 `json:"bound_mm"`
	}
	jsonLowered struct {
		A        string  `json:"a"`
		B        string  `json:"b"`
		Joined   bool    `json:"joined"`
		Shielded bool    `json:"shielded"`
		NeedMM   float64 `json:"need_mm"`
		TableMM  float64 `json:"table_mm"`
		Caution  string  `json:"caution"`
	}
	jsonSuspension struct {
		End         string   `json:"end"`
		Kind        string   `json:"kind"`
		Approximate bool     `json:"approximate"`
		Cut         bool     `json:"cut_short"`
		LowMM       float64  `json:"low_mm"`
		HighMM      float64  `json:"high_mm"`
		BindMM      float64  `json:"bind_mm"`
		Why         string   `json:"why"`
		Unchecked   []string `json:"unchecked_bars"`
		Stray       []string `json:"stray_parts"`
	}
	jsonLimit struct {
		Part  string     `json:"part"`
		Kind  LimitKind  `json:"kind"`
		Value float64    `json:"value"`
		Limit float64    `json:"limit"`
		Unit  string     `json:"unit"`
		At    jsonState  `json:"at"`
		Short []jsonSpan `json:"heights"`
	}
	jsonSpan struct {
		From jsonLevel `json:"from"`
		To   jsonLevel `json:"to"`
	}
	jsonLevel struct {
		Front float64 `json:"front_mm"`
		Rear  float64 `json:"rear_mm"`
	}
	jsonClearance struct {
		Height    string        `json:"height"`
		At        jsonState     `json:"at"`
		GroundMM  float64       `json:"ground_mm"`
		Part      string        `json:"part"`
		PointMM   [3]float64    `json:"point_mm"`
		RimLineMM float64       `json:"rim_line_mm"`
		Below     []jsonHanging `json:"below_rim_line"`
	}
	jsonHanging struct {
		Part     string     `json:"part"`
		GroundMM float64    `json:"ground_mm"`
		PointMM  [3]float64 `json:"point_mm"`
	}
	jsonSummary struct {
		Pairs     int `json:"pairs"`
		Contact   int `json:"contact"`
		Tight     int `json:"tight"`
		Clear     int `json:"clear"`
		Undecided int `json:"undecided"`
		RimLine   int `json:"below_rim_line"`
		Limits    int `json:"past_limit"`
		Locked    int `json:"suspension_cut_short"`
	}
	jsonGap struct {
		Format     string        `json:"format"`
		Version    int           `json:"version"`
		A          string        `json:"a"`
		B          string        `json:"b"`
		At         jsonState     `json:"at"`
		GapMM      float64       `json:"gap_mm"`
		NeedMM     float64       `json:"need_mm"`
		NeedSource string        `json:"need_source"`
		PointsMM   [2][3]float64 `json:"points_mm"`
	}
)

// The report's format and its version, told apart from the scene's.
const (
	ReportFormat  = "scrubline-report"
	GapFormat     = "scrubline-gap"
	ReportVersion = 1
)

// ReportJSON is the model's whole report, indented, ending in a newline. The
// same document gives the same bytes on every build.
func (m *Model) ReportJSON() []byte {
	r := m.Check()
	out := jsonReport{Format: ReportFormat, Version: ReportVersion, Scene: m.Doc.Name, Variant: m.Variant,
		Findings: []jsonFinding{}, Undecided: []jsonUndecided{}, Lowered: []jsonLowered{}, Limits: []jsonLimit{}, Suspension: []jsonSuspension{}, Ground: []jsonClearance{},
		Summary: summaryJSON(&r.Summary)}
	for i := range r.Findings {
		out.Findings = append(out.Findings, m.findingJSON(&r.Findings[i]))
	}
	out.Groups = m.groupsJSON(r)
	for _, u := range r.Undecided {
		out.Undecided = append(out.Undecided, jsonUndecided{u.A, u.B, round(u.GapMM), roundDown(u.BoundMM)})
	}
	for _, l := range r.Lowered {
		out.Lowered = append(out.Lowered, jsonLowered{l.A, l.B, l.Joined, l.Shielded, round(l.NeedMM), round(l.TableMM), l.Caution})
	}
	for _, k := range r.Suspension {
		out.Suspension = append(out.Suspension, jsonSuspension{k.End, k.Kind, k.Approximate, k.Cut, round(k.LowMM), round(k.HighMM), round(k.BindMM), k.Why, some(k.Unchecked), some(k.Stray)})
	}
	for i := range r.Limits {
		out.Limits = append(out.Limits, limitJSON(m.Doc, &r.Limits[i]))
	}
	for i := range r.Ground {
		out.Ground = append(out.Ground, clearanceJSON(m.Doc, &r.Ground[i]))
	}
	return indented(out)
}

func summaryJSON(s *Summary) jsonSummary {
	return jsonSummary{s.Pairs, s.Contact, s.Tight, s.Clear, s.Undecided, s.RimLine, s.Limits, s.Locked}
}

func (m *Model) findingJSON(f *Finding) jsonFinding {
	j := jsonFinding{A: f.A, B: f.B, Status: f.Status, Service: f.Service, For: f.For,
		GapMM: round(f.GapMM), BoundMM: roundDown(f.BoundMM), NeedMM: round(f.NeedMM), NeedSource: f.NeedSource,
		At: stateJSON(m.Doc, f.At), Still: f.Still, PointsMM: pointsJSON(f.PointsMM), Sure: f.Sure, AtHeights: []jsonHeight{}, Caution: f.Caution, Unmeasured: m.unmeasured(f)}
	for i, g := range f.AtHeights {
		j.AtHeights = append(j.AtHeights, jsonHeight{m.Doc.Heights[i].ID, round(g)})
	}
	spans := m.Spans(f)
	j.Touch, j.Short = spansJSON(spans.Touch), spansJSON(spans.Short)
	j.LevelTouch, j.LevelShort = spansJSON(spans.LevelTouch), spansJSON(spans.LevelShort)
	return j
}

func limitJSON(doc *scene.Document, l *Limit) jsonLimit {
	unit := "mm"
	if l.Kind == FrontJoint || l.Kind == RearJoint {
		unit = "deg"
	}
	return jsonLimit{l.Part, l.Kind, round(l.Value), round(l.Limit), unit, stateJSON(doc, l.At), spansJSON(l.Short)}
}

func spansJSON(in []Span) []jsonSpan {
	out := []jsonSpan{}
	for _, s := range in {
		out = append(out, jsonSpan{levelJSON(s.From), levelJSON(s.To)})
	}
	return out
}

func levelJSON(l Level) jsonLevel { return jsonLevel{round(l.FrontMM), round(l.RearMM)} }

func clearanceJSON(doc *scene.Document, c *Clearance) jsonClearance {
	j := jsonClearance{Height: c.Height, At: stateJSON(doc, c.At), GroundMM: round(c.GroundMM), Part: c.Part,
		PointMM: pointJSON(c.PointMM), RimLineMM: round(c.RimLineMM), Below: []jsonHanging{}}
	for _, h := range c.Below {
		j.Below = append(j.Below, jsonHanging{h.Part, round(h.GroundMM), pointJSON(h.PointMM)})
	}
	return j
}

// GapJSON is one measured gap.
func (m *Model) GapJSON(g *Gap) []byte {
	return indented(jsonGap{Format: GapFormat, Version: ReportVersion, A: g.A, B: g.B, At: stateJSON(m.Doc, g.At),
		GapMM: round(g.GapMM), NeedMM: round(g.NeedMM), NeedSource: g.Source, PointsMM: pointsJSON(g.PointsMM)})
}

func stateJSON(doc *scene.Document, s State) jsonState {
	j := jsonState{round(s.FL), round(s.FR), round(s.RL), round(s.RR), round(s.Steer), []jsonMove{}}
	for i, m := range doc.Movements {
		if s.Moves[i] == 0 {
			continue
		}
		unit := "deg"
		if m.Kind == scene.Slide {
			unit = "mm"
		}
		j.Moves = append(j.Moves, jsonMove{m.ID, round(s.Moves[i]), unit})
	}
	return j
}

func pointsJSON(p [2]scene.Vec) [2][3]float64 {
	return [2][3]float64{pointJSON(p[0]), pointJSON(p[1])}
}

func pointJSON(p scene.Vec) [3]float64 { return [3]float64{round(p[0]), round(p[1]), round(p[2])} }

// round keeps four decimals and never prints a negative zero.
func round(v float64) float64 { return math.Round(v*1e4)/1e4 + 0 }

func roundDown(v float64) float64 { return math.Floor(v*1e4)/1e4 + 0 }

func indented(v any) []byte {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil { // only a NaN or an infinity could do this
		return []byte("{}\n")
	}
	return b.Bytes()
}

// some is a list that is written as [] when there is nothing in it.
func some(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
