//go:build js && wasm

// Package bridge is the rim between the sketcher and the page: window.scrub
// for what the page calls, window.scrubPage for what the page offers. What is
// said across it is in package app, protocol.go.
package bridge

import (
	"syscall/js"

	"scrubline/wasm/app"
)

// Host is the page as the sketcher sees it.
type Host struct{}

func page(method string, args ...any) {
	if p := js.Global().Get("scrubPage"); p.Truthy() && p.Get(method).Type() == js.TypeFunction {
		p.Call(method, args...)
	}
}

// Panels gives the page what stands beside the canvas, as JSON.
func (Host) Panels(json string) { page("panels", json) }

// Wake asks for frames during the next ms milliseconds.
func (Host) Wake(ms int) { page("wake", ms) }

// Save gives the page the document to keep, and its steps of undo.
func (Host) Save(name, json, steps string) { page("save", name, json, steps) }

// NowMS is the page's clock in milliseconds.
func (Host) NowMS() float64 { return js.Global().Get("performance").Call("now").Float() }

// Fonts are the bytes of the page's two faces; nil where it gives none.
func Fonts() (regular, bold []byte) {
	f := js.Global().Get("scrubFonts")
	if !f.Truthy() {
		return nil, nil
	}
	get := func(name string) []byte {
		v := f.Get(name)
		if !v.InstanceOf(js.Global().Get("Uint8Array")) {
			return nil
		}
		b := make([]byte, v.Get("length").Int())
		js.CopyBytesToGo(b, v)
		return b
	}
	return get("regular"), get("bold")
}

// Serve puts window.scrub up for the page and tells it so: what the page sends in
// answer comes before the first picture.
func Serve(a *app.App) {
	api := js.Global().Get("Object").New()
	set := func(name string, args int, do func([]js.Value) any) {
		api.Set(name, js.FuncOf(func(_ js.Value, v []js.Value) any {
			if len(v) < args {
				return nil
			}
			return do(v)
		}))
	}
	set("send", 1, func(v []js.Value) any { return a.Send(v[0].String()) })
	set("look", 0, func([]js.Value) any { return a.LookJSON() })
	set("frames", 0, func([]js.Value) any { return a.Frames() })
	set("pointer", 5, func(v []js.Value) any {
		pressure := 0.0
		if len(v) > 5 {
			pressure = number(v[5])
		}
		a.Pointer(v[0].String(), v[1].String(), int(number(v[2])), number(v[3]), number(v[4]), pressure)
		return nil
	})
	set("wheel", 4, func(v []js.Value) any {
		a.Wheel(number(v[0]), number(v[1]), number(v[2]), number(v[3]), len(v) > 4 && v[4].Truthy())
		return nil
	})
	set("key", 1, func(v []js.Value) any {
		return a.Key(v[0].String(), len(v) > 1 && v[1].Truthy(), len(v) > 2 && v[2].Truthy())
	})
	set("pictureURL", 1, func(v []js.Value) any { return a.PictureURL(v[0].String()) })
	set("givePicture", 4, func(v []js.Value) any {
		if !v[3].InstanceOf(js.Global().Get("Uint8Array")) && !v[3].InstanceOf(js.Global().Get("Uint8ClampedArray")) {
			return "the page gave no pixels"
		}
		pixels := make([]byte, v[3].Get("length").Int())
		js.CopyBytesToGo(pixels, v[3])
		if err := a.GivePicture(v[0].String(), int(number(v[1])), int(number(v[2])), pixels); err != nil {
			return err.Error()
		}
		return ""
	})
	js.Global().Set("scrub", api)
	page("serves")
}

// number is v as a number, 0 when it is none.
func number(v js.Value) float64 {
	if v.Type() != js.TypeNumber {
		return 0
	}
	return v.Float()
}
