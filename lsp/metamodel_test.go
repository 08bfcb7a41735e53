package lsp

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
)

// A metaModel is the specification as data: testdata/metaModel.json, from the
// repository microsoft/vscode-languageserver-node, MIT licence. It describes
// 3.18, which holds 3.17; what came after 3.17 is refused by name.
type metaModel struct {
	Requests      []metaMessage
	Notifications []metaMessage
	Structures    []metaStructure
	Enumerations  []metaEnumeration
	TypeAliases   []struct {
		Name string
		Type metaType
	}

	structures   map[string]metaStructure
	enumerations map[string]metaEnumeration
	aliases      map[string]metaType
}

type metaMessage struct {
	Method           string
	MessageDirection string
	Params           *metaType
	Result           *metaType
	Since            string
}

type metaStructure struct {
	Name       string
	Properties []metaProperty
	Extends    []metaType
	Mixins     []metaType
}

type metaProperty struct {
	Name     string
	Type     metaType
	Optional bool
	Since    string
}

type metaEnumeration struct {
	Name                 string
	Type                 metaType
	Values               []struct{ Value any }
	SupportsCustomValues bool
}

type metaType struct {
	Kind    string
	Name    string
	Element *metaType
	Items   []metaType
	Key     *metaType
	Value   json.RawMessage // a type for maps, a string for literals, properties for structures
}

func loadMetaModel() (*metaModel, error) {
	data, err := os.ReadFile("testdata/metaModel.json")
	if err != nil {
		return nil, err
	}
	m := &metaModel{structures: map[string]metaStructure{}, enumerations: map[string]metaEnumeration{}, aliases: map[string]metaType{}}
	if err := json.Unmarshal(data, m); err != nil {
		return nil, err
	}
	for _, s := range m.Structures {
		m.structures[s.Name] = s
	}
	for _, e := range m.Enumerations {
		m.enumerations[e.Name] = e
	}
	for _, a := range m.TypeAliases {
		m.aliases[a.Name] = a.Type
	}
	return m, nil
}

func (m *metaModel) request(method string) (metaMessage, bool) {
	return findMessage(m.Requests, method)
}

func (m *metaModel) notification(method string) (metaMessage, bool) {
	return findMessage(m.Notifications, method)
}

func findMessage(list []metaMessage, method string) (metaMessage, bool) {
	for _, r := range list {
		if r.Method == method {
			return r, true
		}
	}
	return metaMessage{}, false
}

// check reports where a value is not of a type. strict refuses properties that
// the specification does not have, or has only since 3.18.
func (m *metaModel) check(path string, t metaType, value any, strict bool) error {
	wrong := func(want string) error { return fmt.Errorf("%s: %.80v is no %s", path, value, want) }
	switch t.Kind {
	case "base":
		return m.checkBase(path, t.Name, value)
	case "reference":
		if a, ok := m.aliases[t.Name]; ok {
			if t.Name == "LSPAny" || t.Name == "LSPObject" || t.Name == "LSPArray" {
				return nil
			}
			return m.check(path, a, value, strict)
		}
		if e, ok := m.enumerations[t.Name]; ok {
			return m.checkEnumeration(path, e, value)
		}
		s, ok := m.structures[t.Name]
		if !ok {
			return fmt.Errorf("%s: the model has no %s", path, t.Name)
		}
		object, ok := value.(map[string]any)
		if !ok {
			return wrong(t.Name)
		}
		return m.checkObject(path+"<"+t.Name+">", m.properties(s), object, strict)
	case "array":
		list, ok := value.([]any)
		if !ok {
			return wrong("array")
		}
		for i, v := range list {
			if err := m.check(fmt.Sprintf("%s[%d]", path, i), *t.Element, v, strict); err != nil {
				return err
			}
		}
		return nil
	case "map":
		object, ok := value.(map[string]any)
		if !ok {
			return wrong("map")
		}
		var inner metaType
		if err := json.Unmarshal(t.Value, &inner); err != nil {
			return err
		}
		for k, v := range object {
			if err := m.check(path+"."+k, inner, v, strict); err != nil {
				return err
			}
		}
		return nil
	case "or":
		var errs []string
		for _, item := range t.Items {
			err := m.check(path, item, value, strict)
			if err == nil {
				return nil
			}
			errs = append(errs, err.Error())
		}
		return fmt.Errorf("%s: none of %d fits: %s", path, len(t.Items), strings.Join(errs, "; "))
	case "and":
		for _, item := range t.Items {
			if err := m.check(path, item, value, false); err != nil {
				return err
			}
		}
		return nil
	case "tuple":
		list, ok := value.([]any)
		if !ok || len(list) != len(t.Items) {
			return wrong("tuple")
		}
		for i, v := range list {
			if err := m.check(fmt.Sprintf("%s[%d]", path, i), t.Items[i], v, strict); err != nil {
				return err
			}
		}
		return nil
	case "stringLiteral":
		var want string
		if err := json.Unmarshal(t.Value, &want); err != nil || value != want {
			return wrong(fmt.Sprintf("%q", want))
		}
		return nil
	case "literal":
		object, ok := value.(map[string]any)
		if !ok {
			return wrong("object")
		}
		var s struct{ Properties []metaProperty }
		if err := json.Unmarshal(t.Value, &s); err != nil {
			return err
		}
		return m.checkObject(path, s.Properties, object, strict)
	}
	return fmt.Errorf("%s: the model has a type of kind %q, which this test does not know", path, t.Kind)
}

func (m *metaModel) checkBase(path, name string, value any) error {
	ok := false
	switch number, isNumber := value.(float64); name {
	case "string", "URI", "DocumentUri", "RegExp":
		text, isText := value.(string)
		ok = isText && (name != "URI" && name != "DocumentUri" || strings.Contains(text, ":"))
	case "boolean":
		_, ok = value.(bool)
	case "null":
		ok = value == nil
	case "integer":
		ok = isNumber && number == math.Trunc(number) && math.Abs(number) <= 1<<31
	case "uinteger":
		ok = isNumber && number == math.Trunc(number) && number >= 0 && number < 1<<31
	case "decimal":
		ok = isNumber
	}
	if !ok {
		return fmt.Errorf("%s: %.80v is no %s", path, value, name)
	}
	return nil
}

func (m *metaModel) checkEnumeration(path string, e metaEnumeration, value any) error {
	for _, v := range e.Values {
		if v.Value == value {
			return nil
		}
	}
	if e.SupportsCustomValues {
		return m.checkBase(path, e.Type.Name, value)
	}
	return fmt.Errorf("%s: %v is no %s", path, value, e.Name)
}

// properties are a structure's own and those it takes over, its own first.
func (m *metaModel) properties(s metaStructure) []metaProperty {
	out := slices.Clone(s.Properties)
	for _, parent := range slices.Concat(s.Extends, s.Mixins) {
		out = append(out, m.properties(m.structures[parent.Name])...)
	}
	return out
}

func (m *metaModel) checkObject(path string, properties []metaProperty, object map[string]any, strict bool) error {
	known := map[string]bool{}
	for _, p := range properties {
		if known[p.Name] {
			continue // overridden by the structure's own
		}
		known[p.Name] = true
		value, given := object[p.Name]
		if !given {
			if !p.Optional {
				return fmt.Errorf("%s: %s is missing", path, p.Name)
			}
			continue
		}
		if strict && p.Since == "3.18.0" {
			return fmt.Errorf("%s: %s is no part of 3.17", path, p.Name)
		}
		if err := m.check(path+"."+p.Name, p.Type, value, strict); err != nil {
			return err
		}
	}
	if strict {
		for name := range object {
			if !known[name] {
				return fmt.Errorf("%s: %s is no property of it", path, name)
			}
		}
	}
	return nil
}
