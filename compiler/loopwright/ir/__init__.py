"""The pattern without sizes (``pattern``, ``items``, ``numbers``) and, with one, as worked
(``fabric``): frozen values, no behaviour. Spans take no part in equality, so that a pattern in UK
terms equals the same one in US terms."""
