package source

func parseJSON(l *layout) (*Node, Problems) { return parseYAML(l) }
