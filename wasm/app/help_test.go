package app

import (
	"encoding/json"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/wasm/draw"
)

// fakePage is the page for tests: it keeps what it is given, and its clock
// stands still until a test moves it, or goes on by step with every look at it.
type fakePage struct {
	panels []string
	saved  []string
	steps  string // of what was saved last
	now    float64
	step   float64
}

func (p *fakePage) Panels(json string) { p.panels = append(p.panels, json) }
func (p *fakePage) Wake(int)           {}
func (p *fakePage) Save(_, json, steps string) {
	p.saved, p.steps = append(p.saved, json), steps
}
func (p *fakePage) NowMS() float64 {
	p.now += p.step
	return p.now
}
func (p *fakePage) last(t testing.TB) Panels {
	t.Helper()
	require.NotEmpty(t, p.panels)
	var out Panels
	require.NoError(t, json.Unmarshal([]byte(p.panels[len(p.panels)-1]), &out))
	return out
}

// yard is the starter vehicle in millimetres with an air tank beside its
// driveshaft, seen in a section through the tank: invented dimensions.
func yard(t testing.TB) (*App, *fakePage) {
	t.Helper()
	doc := scene.New()
	edit := func(d *scene.Document, _ string, err error) {
		t.Helper()
		require.NoError(t, err)
		doc = d
	}
	edit(scene.SetField(doc, "scene", "show", "mm"))
	edit(scene.SetField(doc, "scene", "height/aired_out/rear_mm", "-130"))
	edit(scene.SetField(doc, "scene", "height/aired_out/front_mm", "-110"))
	edit(scene.AddPart(doc, "air_tank", scene.Vec{2100, -150, 40}))
	page := &fakePage{}
	a, err := New(page, draw.RoughWidth)
	require.NoError(t, err)
	a.Resize(1000, 800)
	send(t, a, Command{Do: "open", Text: string(scene.Encode(doc)), Name: "yard.json"})
	send(t, a, Command{Do: "station", MM: 2100})
	frame(a)
	return a, page
}

// frame lets one frame pass, with the ticks that opening a document waits for.
func frame(a *App) {
	for range 4 {
		a.Tick()
	}
	a.Frame()
}

func send(t testing.TB, a *App, c Command) Reply {
	t.Helper()
	r := try(t, a, c)
	require.Empty(t, r.Error, "%+v", c)
	return r
}

func try(t testing.TB, a *App, c Command) Reply {
	t.Helper()
	in, err := json.Marshal(c)
	require.NoError(t, err)
	var r Reply
	require.NoError(t, json.Unmarshal([]byte(a.Send(string(in))), &r))
	return r
}

const tank = "air-tank"

func atMM(t testing.TB, a *App, id string) scene.Vec {
	t.Helper()
	p, err := a.part(id)
	require.NoError(t, err)
	return p.AtMM
}

func grip(t testing.TB, a *App, id string) mgl64.Vec2 {
	t.Helper()
	p, ok := a.Look().Parts[id]
	require.True(t, ok, "%s cannot be picked up in this view", id)
	return p
}

func tapAt(a *App, p mgl64.Vec2) {
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	a.Pointer("pointerup", "touch", 1, p[0], p[1], 0)
}

// drag moves one finger from p by d in ten steps and lifts it.
func drag(a *App, kind string, p, d mgl64.Vec2) {
	press(a, kind, p, d)
	a.Pointer("pointerup", kind, 1, p[0]+d[0], p[1]+d[1], 0)
}

// press is drag without lifting the finger.
func press(a *App, kind string, p, d mgl64.Vec2) {
	a.Pointer("pointerdown", kind, 1, p[0], p[1], 0.5)
	for i := 1.0; i <= 10; i++ {
		q := p.Add(d.Mul(i / 10))
		a.Pointer("pointermove", kind, 1, q[0], q[1], 0.5)
	}
}
