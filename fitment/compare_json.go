package fitment

// CompareFormat is the format of a comparison's JSON, which compare.schema.json
// describes.
const CompareFormat = "scrubline-compare"

type (
	jsonComparison struct {
		Format   string        `json:"format"`
		Version  int           `json:"version"`
		Scene    string        `json:"scene"`
		Currency string        `json:"currency,omitempty"`
		Budget   *float64      `json:"budget,omitempty"`
		Variants []jsonColumn  `json:"variants"`
		Pairs    []jsonPairRow `json:"pairs"`
	}
	jsonColumn struct {
		ID      string       `json:"id"`
		Name    string       `json:"name"`
		Summary jsonSummary  `json:"summary"`
		Low     jsonLow      `json:"lowest_clear"`
		Stock   jsonStock    `json:"stock"`
		Differs []jsonDiffer `json:"differs"`
	}
	jsonLow struct {
		At     jsonLevel `json:"at"`
		AtRide bool      `json:"touches_at_ride"`
		By     []string  `json:"then_touch"`
	}
	jsonStock struct {
		Parts    int     `json:"parts"`
		MassKG   float64 `json:"mass_kg"`
		NoMass   int     `json:"without_mass"`
		Cost     float64 `json:"cost"`
		NoPrice  int     `json:"without_price"`
		ToOrder  int     `json:"to_order"`
		OrderSum float64 `json:"to_order_cost"`
	}
	jsonDiffer struct {
		Part string `json:"part,omitempty"`
		Name string `json:"name"`
		Text string `json:"text"`
	}
	jsonPairRow struct {
		A       string         `json:"a"`
		B       string         `json:"b"`
		Service string         `json:"service,omitempty"`
		Gaps    []jsonPairCell `json:"gaps"`
	}
	jsonPairCell struct {
		Variant string     `json:"variant"`
		Status  PairStatus `json:"status"`
		GapMM   *float64   `json:"gap_mm,omitempty"`
		BoundMM *float64   `json:"bound_mm,omitempty"`
		NeedMM  *float64   `json:"need_mm,omitempty"`
	}
)

// JSON is a complete comparison, indented, ending in a newline. The same
// document gives the same bytes on every build.
func (c *Comparison) JSON() []byte {
	out := jsonComparison{Format: CompareFormat, Version: ReportVersion, Scene: c.Doc.Name, Currency: c.Doc.Currency,
		Budget: c.Doc.Budget, Variants: []jsonColumn{}, Pairs: []jsonPairRow{}}
	for i := range c.Columns {
		out.Variants = append(out.Variants, columnJSON(&c.Columns[i]))
	}
	for i := range c.Pairs {
		row := &c.Pairs[i]
		j := jsonPairRow{A: row.A, B: row.B, Service: row.Service, Gaps: []jsonPairCell{}}
		for k := range row.Cells {
			j.Gaps = append(j.Gaps, cellJSON(c.Columns[k].ID, &row.Cells[k]))
		}
		out.Pairs = append(out.Pairs, j)
	}
	return indented(out)
}

func columnJSON(col *Column) jsonColumn {
	t := &col.Totals
	j := jsonColumn{ID: col.ID, Name: col.Name, Summary: summaryJSON(&col.Model.Check().Summary),
		Low:   jsonLow{levelJSON(col.Low.At), col.Low.AtRide, append([]string{}, col.Low.By...)},
		Stock: jsonStock{t.Parts, round(t.MassKG), t.NoMass, t.Cost, t.NoPrice, len(t.Order), t.OrderSum}, Differs: []jsonDiffer{}}
	for _, d := range col.Differs {
		j.Differs = append(j.Differs, jsonDiffer(d))
	}
	return j
}

func cellJSON(variant string, p *PairCell) jsonPairCell {
	j := jsonPairCell{Variant: variant, Status: p.Status}
	if p.Status == PairJoined || p.Status == PairAbsent {
		return j
	}
	gap, bound, need := round(p.GapMM), roundDown(p.BoundMM), round(p.NeedMM)
	j.GapMM, j.BoundMM, j.NeedMM = &gap, &bound, &need
	return j
}
