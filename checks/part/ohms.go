package part

// OhmsNeed lists the keys that a part of this kind needs for its resistance
// to be predictable and that the sheet does not give; empty where nothing on
// the sheet could help.
func (p *Part) OhmsNeed() []string {
	var need []string
	ask := func(keys ...string) {
		for _, k := range keys {
			if p.Node.Get(k) == nil {
				need = append(need, k)
			}
		}
	}
	switch p.Kind {
	case resistor, potentiometer:
		ask("value")
	case thermistor:
		ask("cold")
	case lamp, barretter:
		ask("voltage", "current")
	case choke, fieldCoil:
		ask("resistance")
	case tube, rectifier:
		if _, _, known := p.HeaterRating(); !known && p.Word("of") == "" {
			ask("type")
		}
	}
	return need
}
