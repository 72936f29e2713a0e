package fitment

// RoomFormat is the format of a room's JSON, which room.schema.json describes.
const RoomFormat = "scrubline-room"

type (
	jsonRoom struct {
		Format  string        `json:"format"`
		Version int           `json:"version"`
		Scene   string        `json:"scene"`
		Part    string        `json:"part"`
		View    string        `json:"view"`
		Axes    [2]string     `json:"axes"`
		AtMM    [2]float64    `json:"at_mm"`
		Stands  bool          `json:"stands_in_it"`
		LowMM   [2]float64    `json:"low_mm"`
		CellMM  float64       `json:"cell_mm"`
		Cells   [2]int        `json:"cells"`
		Free    float64       `json:"free_share"`
		Borders []jsonBorder  `json:"borders"`
		Rows    []jsonRoomRow `json:"rows"`
	}
	jsonBorder struct {
		By       string  `json:"by"`
		LengthMM float64 `json:"length_mm"`
	}
	jsonRoomRow struct {
		MiddleMM float64   `json:"middle_mm"`
		Runs     []jsonRun `json:"runs"`
	}
	jsonRun struct {
		FromMM float64 `json:"from_mm"`
		ToMM   float64 `json:"to_mm"`
		By     string  `json:"by,omitempty"`
	}
)

var viewNames = map[View]string{SectionView: "section", SideView: "side", PlanView: "plan", FrontView: "front"}

// RoomJSON is a room of this model, indented, ending in a newline. The same
// document and the same question give the same bytes on every build.
func (m *Model) RoomJSON(r *Room) []byte {
	u, w := r.View.axes()
	out := jsonRoom{Format: RoomFormat, Version: ReportVersion, Scene: m.Doc.Name, Part: r.Part, View: viewNames[r.View],
		Axes: [2]string{string("xyz"[u]), string("xyz"[w])}, AtMM: [2]float64{round(r.AtMM[0]), round(r.AtMM[1])},
		LowMM: [2]float64{round(r.LoMM[0]), round(r.LoMM[1])}, CellMM: r.CellMM, Cells: [2]int{r.Nu, r.Nw}, Free: round(r.FreeShare()),
		Stands: r.StandsFree(), Borders: []jsonBorder{}, Rows: []jsonRoomRow{}}
	for _, b := range r.Borders() {
		out.Borders = append(out.Borders, jsonBorder{b.By, round(b.LengthMM)})
	}
	for j := range r.Nw {
		row := jsonRoomRow{MiddleMM: round(r.LoMM[1] + (float64(j)+0.5)*r.CellMM)}
		for _, run := range r.Row(j) {
			row.Runs = append(row.Runs, jsonRun{round(r.LoMM[0] + float64(run.From)*r.CellMM), round(r.LoMM[0] + float64(run.To)*r.CellMM), run.By})
		}
		out.Rows = append(out.Rows, row)
	}
	return indented(out)
}

// StandsFree says whether the part may stand where it does.
func (r *Room) StandsFree() bool {
	by, ok := r.At(r.AtMM[0], r.AtMM[1])
	return ok && by == ""
}
