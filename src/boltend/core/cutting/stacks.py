"""How many stacks a rotary cutter takes for so many layers."""


def stacks_of(layers: int, most: int = 8) -> int:
    """Count the stacks for `layers` of cloth at `most` a stack: 16 at 8 are 2.

    Layers of at most 8 are common practice, no source.
    """
    if layers < 0 or most < 1:
        raise ValueError(f"{layers} layers in stacks of at most {most}: it takes 0 or more, and 1 or more")
    return -(-layers // most)
