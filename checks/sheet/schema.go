package sheet

import (
	"encoding/json"
	"fmt"
	"strconv"

	"firstvolt/checks/strict"
)

// object keeps JSON Schema readable: maps print sorted.
type object = map[string]any

// Schema is the JSON Schema (draft 2020-12) of the bench sheet, made of the
// same shape that reading uses. It knows keys, words and the form of values,
// for an editor to help with; it does not know whether a part that is named
// exists, or whether a run has a way. What it takes may still be refused.
func Schema() ([]byte, error) {
	w := schemaWriter{defs: object{}}
	root := w.shape(Shape(), "the bench sheet, format 1")
	root["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	root["title"] = "firstvolt bench sheet, format 1"
	root["$defs"] = w.defs
	out, err := json.MarshalIndent(root, "", "  ")
	if err != nil {
		return nil, fmt.Errorf("the schema of the sheet: %w", err)
	}
	return append(out, '\n'), nil
}

// schemaWriter turns shapes into schemas; texts with a type stand in $defs.
type schemaWriter struct{ defs object }

// shape is the schema of one place; doc, if not empty, describes it.
func (w *schemaWriter) shape(s *strict.Shape, doc string) object {
	var ways []any
	if s.Text != nil {
		ways = append(ways, w.text(s.Text))
	}
	if s.Map != nil {
		ways = append(ways, w.mapping(s.Map))
	}
	if s.List != nil {
		ways = append(ways, w.list(s.List))
	}
	out := object{}
	if len(ways) == 1 {
		out = ways[0].(object)
	} else {
		out["anyOf"] = ways
	}
	if doc == "" {
		doc = s.Doc
	}
	if doc != "" {
		out["description"] = doc
	}
	return out
}

// text is a scalar. A generic reader may have made a number of it (ends: [1,
// 2]), so a number is let pass where its text would.
func (w *schemaWriter) text(t *strict.TextShape) object {
	if t.Words != nil {
		return object{"enum": words(t.Words)}
	}
	if t.Type == "" || t.Pattern == "" {
		return object{"type": []string{"string", "number"}}
	}
	if w.defs[t.Type] == nil {
		text := object{"type": "string", "pattern": t.Pattern}
		if t.Example != "" {
			text["examples"] = []string{t.Example}
		}
		def := text
		if t.Type == "name" || t.Type == "number" || t.Type == "ratio" {
			def = object{"anyOf": []any{text, object{"type": "number", "minimum": 0}}}
		}
		w.defs[t.Type] = def
	}
	return object{"$ref": "#/$defs/" + t.Type}
}

// words lists every spelling, and the number that a word of digits may become.
func words(official []string) []any {
	var out []any
	for _, word := range official {
		for _, s := range strict.Spellings(word) {
			out = append(out, s)
		}
		if n, err := strconv.Atoi(word); err == nil {
			out = append(out, n)
		}
	}
	return out
}

func (w *schemaWriter) list(l *strict.ListShape) object {
	out := object{"type": "array", "items": w.shape(l.Item, "")}
	if l.Min > 0 {
		out["minItems"] = l.Min
	}
	if l.Max > 0 {
		out["maxItems"] = l.Max
	}
	return out
}

func (w *schemaWriter) mapping(m *strict.MapShape) object {
	if m.Case == "" {
		out := w.keys(m.Keys, nil, m.Any)
		if m.Any != nil && m.KeyPattern != "" {
			out["propertyNames"] = object{"pattern": m.KeyPattern}
		}
		return out
	}
	// The word under Case chooses the keys.
	all := object{"enum": words(m.Order)}
	var cases []any
	for _, word := range m.Order {
		chosen := strict.Key{Name: m.Case, Shape: &strict.Shape{Text: &strict.TextShape{Words: []string{word}}}, Required: true}
		cases = append(cases, object{
			"if":   object{"properties": object{m.Case: object{"enum": words([]string{word})}}, "required": []string{m.Case}},
			"then": w.keys(append(append([]strict.Key{}, m.Keys...), m.Cases[word].Keys...), []strict.Key{chosen}, nil),
		})
	}
	return object{"type": "object", "required": []string{m.Case}, "properties": object{m.Case: all}, "allOf": cases}
}

// keys is a map with the given keys; others are refused unless of shape rest.
func (w *schemaWriter) keys(keys, first []strict.Key, rest *strict.Shape) object {
	properties, required := object{}, []string{}
	for _, k := range append(first, keys...) {
		for _, s := range strict.Spellings(k.Name) {
			properties[s] = w.shape(k.Shape, k.Doc)
		}
		if k.Required {
			required = append(required, k.Name)
		}
	}
	out := object{"type": "object", "properties": properties, "additionalProperties": false}
	if rest != nil {
		out["additionalProperties"] = w.shape(rest, "")
	}
	if len(required) > 0 {
		out["required"] = required
	}
	return out
}
