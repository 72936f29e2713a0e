package scene

import (
	"bytes"
	"encoding/json"
)

//go:generate go test -run TestSchemaFile -update

// obj is an object of the schema being built; its keys are written sorted.
type obj = map[string]any

// Schema is the JSON Schema (2020-12) of the scene file, built from the kinds.
// It says all that Decode checks except what a schema cannot: that ids are
// unique and exist, that fields agree with each other, that no key stands twice.
func Schema() []byte {
	root := closed(obj{
		"format":       obj{"const": Format},
		"version":      obj{"const": Version},
		"name":         oneLine("What the scene is called."),
		"note":         obj{"type": "string", "maxLength": noteRunes},
		"show":         obj{"enum": []Units{Millimetres, Inches}, "description": "The unit lengths are shown in; stored lengths are always millimetres."},
		"tolerance_mm": numSchema(0, 100, "Tolerance of a part that states none of its own."),
		"currency":     obj{"type": "string", "maxLength": currencyRunes, "pattern": `^[^\x00-\x1f\x7f-\x9f]*$`, "description": "Of every price, such as USD."},
		"budget":       numSchema(0, priceMost, "What the parts may cost."),
		"shelf":        shelfSchema(),
		"variants":     variantsSchema(),
		"shown":        obj{"type": "string", "description": "The variant that is shown, by id; empty is the scene as drawn."},
		"vehicle":      vehicleSchema(),
		"heights":      heightsSchema(),
		"movements":    movementSchema(),
		"parts":        obj{"type": "array", "maxItems": MaxParts, "items": obj{"$ref": "#/$defs/part"}},
		"groups":       groupSchema(),
		"needs":        obj{"type": "array", "maxItems": maxPairs, "items": needSchema()},
		"joined": obj{"type": "array", "maxItems": maxPairs, "items": closed(obj{
			"a": idSchema(), "b": idSchema(), "why": oneLine("Why the two may touch.")}, "a", "b")},
		"photos":     photoSchema(),
		"tapes":      tapesSchema(),
		"checked":    checkedSchema(),
		"unmeasured": unmeasuredSchema(),
	}, "format", "version", "vehicle", "heights")
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "Scrubline scene"
	root["description"] = "One vehicle, its parts, heights and needs. X is rearward from the front axle's centreline at ride height, " +
		"Y to the right of the centreline, Z up from the underside of the straight run of the frame rails; lengths in millimetres, angles in degrees."
	defs := obj{"part": partSchema(), "trait": obj{"enum": AllTraits}}
	for _, k := range Kinds() {
		defs["size_"+k.Name] = sizeSchema(k)
	}
	root["$defs"] = defs
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(root); err != nil {
		panic("scene: the schema cannot be written: " + err.Error()) // made of plain maps and text
	}
	return b.Bytes()
}

// closed is an object of just these members, some of them required.
func closed(members obj, required ...string) obj {
	o := obj{"type": "object", "additionalProperties": false, "properties": members}
	if len(required) > 0 {
		o["required"] = required
	}
	return o
}

func numSchema(least, most float64, about string) obj {
	o := obj{"type": "number", "minimum": least, "maximum": most}
	if about != "" {
		o["description"] = about
	}
	return o
}

func oneLine(about string) obj {
	return obj{"type": "string", "maxLength": nameRunes, "pattern": `^[^\x00-\x1f\x7f-\x9f]*$`, "description": about}
}

func idSchema() obj { return obj{"type": "string", "pattern": "^[A-Za-z0-9_-]{1,64}$"} }

func vecSchema(far float64, about string) obj {
	return obj{"type": "array", "minItems": 3, "maxItems": 3, "items": numSchema(-far, far, ""), "description": about}
}

// tyrePattern is tyreCode for readers that know no capitals-only text.
const tyrePattern = `^\s*([Pp]|[LlSs]?[Tt])?\s*[0-9]{2,3}\s*/\s*[0-9]{2,3}\s*([Zz]?[Rr]|[BbDd]|-)?\s*[Ff]?\s*[0-9]{1,2}(\.[0-9])?([Ll][Tt]|[Cc])?(\s+[0-9A-Za-z/() ]*)?\s*$`

func vehicleSchema() obj {
	deflection := numSchema(0, 950, "How much lower the axle stands than the free radius, under load.")
	end := closed(obj{
		"track_mm": numSchema(200, 3500, "Between the centre planes of the two tyres."),
		"tyre": obj{"oneOf": []obj{
			closed(obj{"code": obj{"type": "string", "pattern": tyrePattern, "description": "Such as 225/45R17."}, "deflection_mm": deflection}, "code"),
			closed(obj{
				"diameter_mm": numSchema(100, 2000, "Free outer diameter."), "width_mm": numSchema(20, 800, "Section width."),
				"rim_mm": numSchema(50, 1500, "Rim diameter."), "deflection_mm": deflection}, "diameter_mm", "width_mm", "rim_mm"),
		}},
		"frame_height_mm": numSchema(-500, 2000, "Frame datum over the ground at this axle, at ride."),
		"independent":     obj{"type": "boolean", "description": "Each wheel moves by itself; otherwise an axle joins the two."},
		"steer_deg":       numSchema(0, 60, "Largest steer each way; 0 does not steer."),
		"cross_mm":        numSchema(0, 600, "Largest difference of the left and right corner heights that is checked."),
		"suspension":      suspensionSchema(),
	}, "track_mm", "tyre", "frame_height_mm")
	end["allOf"] = suspensionFits()
	rear := obj{}
	for name, def := range end {
		rear[name] = def
	}
	rear["allOf"] = []obj{{"properties": obj{"steer_deg": obj{"const": 0}}}}
	return closed(obj{
		"wheelbase_mm": numSchema(500, 12000, "From the front to the rear axle's centreline."),
		"front":        end, "rear": rear,
	}, "wheelbase_mm", "front", "rear")
}

func heightsSchema() obj {
	has := func(id string, low, high float64) obj {
		move := numSchema(low, high, "")
		return obj{"contains": obj{"required": []string{"id"}, "properties": obj{"id": obj{"const": id}, "front_mm": move, "rear_mm": move}}}
	}
	return obj{
		"type": "array", "maxItems": maxHeights,
		"description": "Named states of the body: how far it has risen over each axle from ride.",
		"items": closed(obj{
			"id": idSchema(), "name": oneLine("Shown name."),
			"front_mm": numSchema(-moveMM, moveMM, ""), "rear_mm": numSchema(-moveMM, moveMM, ""),
		}, "id", "front_mm", "rear_mm"),
		"allOf": []obj{has(AiredOut, -moveMM, 0), has(Ride, 0, 0), has(AiredUp, 0, moveMM)},
	}
}

func needSchema() obj {
	pair := func(of obj) obj { return obj{"type": "array", "minItems": 2, "maxItems": 2, "items": of} }
	o := closed(obj{
		"parts": pair(idSchema()), "traits": pair(obj{"$ref": "#/$defs/trait"}),
		"need_mm":  numSchema(0, 2000, "The gap the two must keep."),
		"shielded": obj{"type": "boolean", "description": "A heat shield stands between the two parts."},
		"why":      oneLine("Where the number comes from."),
	})
	o["oneOf"] = []obj{
		{"required": []string{"parts"}},
		{"required": []string{"traits"}, "properties": obj{"shielded": obj{"const": false}}},
	}
	o["anyOf"] = []obj{
		{"required": []string{"need_mm"}},
		{"required": []string{"shielded"}, "properties": obj{"shielded": obj{"const": true}}},
	}
	return o
}

// partSchema leaves carrier and size to the part's kind.
func partSchema() obj {
	var names []string
	var byKind []obj
	for _, k := range Kinds() {
		names = append(names, k.Name)
		byKind = append(byKind, obj{
			"if": obj{"properties": obj{"kind": obj{"const": k.Name}}},
			"then": obj{"properties": obj{
				"carrier": obj{"enum": k.Carriers},
				"size":    obj{"$ref": "#/$defs/size_" + k.Name},
			}},
		})
	}
	o := closed(obj{
		"id":            idSchema(),
		"name":          oneLine("Shown name."),
		"kind":          obj{"enum": names},
		"carrier":       obj{"enum": Carriers, "description": "What the part rides on; its position is measured from there."},
		"at_mm":         vecSchema(farMM, "The part's reference point from its carrier's origin at ride: rearward, right, up."),
		"turn_deg":      vecSchema(360, "Roll about X, then pitch about Y, then yaw about Z, each right-handed."),
		"traits":        obj{"type": "array", "uniqueItems": true, "items": obj{"$ref": "#/$defs/trait"}, "description": "What the part is, in place of what its kind says."},
		"moves":         obj{"type": "array", "maxItems": maxPartMoves, "items": idSchema(), "description": "Movements that carry it, innermost first."},
		"tolerance_mm":  numSchema(0, 100, "How far it may really stand from where it is drawn."),
		"note":          obj{"type": "string", "maxLength": noteRunes},
		"mass_kg":       numSchema(0, massKG, "What it weighs."),
		"price":         numSchema(0, priceMost, "What it costs, in the document's currency."),
		"state":         obj{"enum": PartStates, "description": "How far it has come."},
		"locked":        obj{"type": "boolean", "description": "It stays in its place: neither moved nor turned nor deleted."},
		"measured_from": measuredSchema(),
		"size":          obj{"type": "object"},
	}, "id", "kind")
	o["allOf"] = byKind
	return o
}

func sizeSchema(k *Kind) obj {
	o := closed(fieldsSchema(k.Fields))
	o["title"], o["description"] = k.Label, k.About
	return o
}

func fieldsSchema(fields []Field) obj {
	members := obj{}
	for i := range fields {
		members[fields[i].Name] = fieldSchema(&fields[i])
	}
	return members
}

func fieldSchema(f *Field) obj {
	o := obj{"title": f.Label}
	if f.Help != "" {
		o["description"] = f.Help
		if f.ZeroIs != "" {
			o["description"] = f.Help + " 0: " + f.ZeroIs + "."
		}
	}
	switch f.Type {
	case Choice:
		o["enum"], o["default"] = f.Choices, f.DefaultChoice
	case Flag:
		o["type"], o["default"] = "boolean", f.Default != 0
	case Table:
		o["type"], o["minItems"], o["maxItems"] = "array", f.MinRows, f.MaxRows
		o["items"] = closed(fieldsSchema(f.Columns))
	default:
		o["type"], o["minimum"], o["maximum"], o["default"] = "number", f.Min, f.Max, f.Default
		if f.Type == Count {
			o["type"] = "integer"
		}
	}
	return o
}
