# ruff: noqa: ANN401, ARG001, PLR0917 - signatures are the compiler's, which reads them by name
"""Three loops over eight numbers at once, written as machine-independent vector code.

A compiler that is given plain loops over short stretches works through their ends one number at a
time, which costs more than the rest; a band matrix consists of short stretches only.
"""

from __future__ import annotations

from typing import Any

from llvmlite import ir
from numba import types
from numba.extending import intrinsic

LANES = 8
"""How many numbers are worked at once."""

_SINGLE = ir.FloatType()
_WORD = ir.IntType(32)
_VECTOR = ir.VectorType(_SINGLE, LANES)
_LOOSE = ("contract", "reassoc", "nsz")
_UNROLLED = 4


def _sweep(_context: Any, a: Any, to: Any, by: Any, source: Any, count: Any) -> Any:
    """Lower a[to + 8c : + 8] by by[0:8] a[source + 8c] + by[8:16] a[source + 8c + 1], c < count."""
    signature = types.void(a, types.intp, by, types.intp, types.intp)

    def write(context: Any, builder: Any, signature: Any, given: Any) -> Any:
        data = _data(context, builder, signature.args[0], given[0])
        shares = _data(context, builder, signature.args[2], given[2])
        word = given[1].type
        first = _load(builder, shares, ir.Constant(word, 0))
        second = _load(builder, shares, ir.Constant(word, LANES))

        def body(step: Any) -> None:
            off = builder.mul(step, ir.Constant(word, LANES))
            target, at = builder.add(given[1], off), builder.add(given[3], off)
            one = _spread(builder, data, at)
            two = _spread(builder, data, builder.add(at, ir.Constant(word, 1)))
            value = _less(builder, _load(builder, data, target), first, one)
            _store(builder, data, target, _less(builder, value, second, two))

        _loop(builder, given[4], body)
        return context.get_dummy_value()

    return signature, write


def _sweep_all(_context: Any, a: Any, to: Any, by: Any, source: Any, count: Any) -> Any:
    """Lower a[to + 8c : + 8] by the sum over j of by[8j : 8j + 8] a[source + 8c + j], c < count."""
    signature = types.void(a, types.intp, by, types.intp, types.intp)

    def write(context: Any, builder: Any, signature: Any, given: Any) -> Any:
        data = _data(context, builder, signature.args[0], given[0])
        shares = _data(context, builder, signature.args[2], given[2])
        word = given[1].type
        known = [_load(builder, shares, ir.Constant(word, LANES * j)) for j in range(LANES)]

        def body(step: Any) -> None:
            off = builder.mul(step, ir.Constant(word, LANES))
            target, at = builder.add(given[1], off), builder.add(given[3], off)
            value = _load(builder, data, target)
            for j, share in enumerate(known):
                one = _spread(builder, data, builder.add(at, ir.Constant(word, j)))
                value = _less(builder, value, share, one)
            _store(builder, data, target, value)

        _loop(builder, given[4], body)
        return context.get_dummy_value()

    return signature, write


def _gather(_context: Any, a: Any, at: Any, x: Any, source: Any, to: Any, count: Any) -> Any:
    """Lower x[to : to + 8] by the sum of a[at + 8c : + 8] x[source + c]; count a multiple of 4."""
    signature = types.void(a, types.intp, x, types.intp, types.intp, types.intp)

    def write(context: Any, builder: Any, signature: Any, given: Any) -> Any:
        data = _data(context, builder, signature.args[0], given[0])
        known = _data(context, builder, signature.args[2], given[2])
        word = given[1].type
        zero = ir.Constant(_VECTOR, [0.0] * LANES)
        with builder.goto_entry_block():
            sums = [builder.alloca(_VECTOR) for _ in range(_UNROLLED)]
        builder.store(_load(builder, known, given[4]), sums[0])
        for place in sums[1:]:
            builder.store(zero, place)

        def body(step: Any) -> None:
            column = builder.mul(step, ir.Constant(word, _UNROLLED))
            for k, place in enumerate(sums):
                c = builder.add(column, ir.Constant(word, k))
                row = builder.add(given[1], builder.mul(c, ir.Constant(word, LANES)))
                value = _spread(builder, known, builder.add(given[3], c))
                total = _less(builder, builder.load(place), _load(builder, data, row), value)
                builder.store(total, place)

        _loop(builder, builder.udiv(given[5], ir.Constant(word, _UNROLLED)), body)
        total = builder.load(sums[0])
        for place in sums[1:]:
            total = builder.fadd(total, builder.load(place), flags=_LOOSE)
        _store(builder, known, given[4], total)
        return context.get_dummy_value()

    return signature, write


sweep: Any = intrinsic(_sweep)
sweep_all: Any = intrinsic(_sweep_all)
gather: Any = intrinsic(_gather)


def _data(context: Any, builder: Any, kind: Any, value: Any) -> Any:
    return context.make_array(kind)(context, builder, value).data


def _loop(builder: Any, count: Any, body: Any) -> None:
    """Write a loop of `count` rounds; `body` is given the round."""
    word = count.type
    before = builder.block
    head, work, after = (builder.append_basic_block(name) for name in ("head", "work", "after"))
    builder.branch(head)
    builder.position_at_end(head)
    step = builder.phi(word)
    step.add_incoming(ir.Constant(word, 0), before)
    builder.cbranch(builder.icmp_signed("<", step, count), work, after)
    builder.position_at_end(work)
    body(step)
    step.add_incoming(builder.add(step, ir.Constant(word, 1)), builder.block)
    builder.branch(head)
    builder.position_at_end(after)


def _load(builder: Any, data: Any, at: Any) -> Any:
    return builder.load(builder.bitcast(builder.gep(data, [at]), _VECTOR.as_pointer()), align=4)


def _store(builder: Any, data: Any, at: Any, value: Any) -> None:
    builder.store(value, builder.bitcast(builder.gep(data, [at]), _VECTOR.as_pointer()), align=4)


def _spread(builder: Any, data: Any, at: Any) -> Any:
    """Return one number in all lanes."""
    none = ir.Constant(_VECTOR, ir.Undefined)
    one = builder.insert_element(none, builder.load(builder.gep(data, [at])), ir.Constant(_WORD, 0))
    return builder.shuffle_vector(one, none, ir.Constant(ir.VectorType(_WORD, LANES), [0] * LANES))


def _less(builder: Any, value: Any, a: Any, b: Any) -> Any:
    return builder.fsub(value, builder.fmul(a, b, flags=_LOOSE), flags=_LOOSE)
