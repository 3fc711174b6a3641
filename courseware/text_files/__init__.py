"""Text that comes from strangers: decoded or refused, YAML with line and column for every fault."""
