"""Price files: what is written is read; every broken one gives all its faults at once.

The messages in price_faults/expected.txt were read one by one.     (tests/unit/choose/arrange/test_price_file.py)
"""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from tests.price_builders import PRICES, round_prices

from takeup.choose.arrange.price_file import FORM, KEYS, prices_from_bytes, read_prices
from takeup.choose.arrange.price_tables import SizeTable
from takeup.errors import Fault, InputError, OutOfRange
from takeup.library import pipe_sizes
from takeup.reading.keyed import Key

FOLDER = Path(__file__).parent / "price_faults"
FILES = sorted(FOLDER.glob("*.yaml"))
EXPECTED = (FOLDER / "expected.txt").read_text(encoding="utf-8").splitlines()
SIZES = [size.dn for size in pipe_sizes()]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_broken_price_file_gives_exactly_its_faults(path, monkeypatch):
    monkeypatch.chdir(path.parent)
    with pytest.raises(InputError) as caught:
        read_prices(Path(path.name))
    expected = [line for line in EXPECTED if line.startswith(f"{path.name}:")]
    assert [str(fault) for fault in caught.value.faults] == expected


def test_table_that_lacks_a_size_says_where_it_stands():
    """The table of rests stands in a line of its own, found here in the text; folders are not named."""
    text = PRICES.replace("rest: {", "rest:   {")
    number, line = next((n, line) for n, line in enumerate(text.splitlines(), 1) if "rest:   {" in line)
    where = f"own.yaml:{number}:{line.index('rest:') + 1}: rest: no price for size 5000"
    with pytest.raises(OutOfRange) as caught:
        prices_from_bytes(text.encode(), "some/folder/own.yaml").rest(5000.0)
    assert str(caught.value).startswith(where)


def test_expected_faults_all_belong_to_a_price_file():
    assert {line.split(":")[0] for line in EXPECTED} == {path.name for path in FILES}


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "1:1: found nothing, expected a mapping that begins with takeup_prices: 1"),
        (b"\x7fELF\x00\x01", "1:1: this is not text in UTF-8; save the file as UTF-8"),
        (b"[" * 5000, "1:1: the file is nested too deeply to be a price file"),
        (PRICES.replace("EUR", "&a EUR").encode(), "4:7: the anchor '&a' is not used in price files"),
    ],
    ids=["empty", "binary", "nested deeply", "an anchor of YAML"],
)
def test_file_that_is_no_price_file_says_so(content, message):
    with pytest.raises(InputError) as caught:
        prices_from_bytes(content, "p.yaml")
    assert any(str(fault).startswith(f"p.yaml:{message}") for fault in caught.value.faults), caught.value


def test_missing_price_file_is_one_fault(tmp_path):
    path = tmp_path / "none.yaml"
    with pytest.raises(InputError) as caught:
        read_prices(path)
    assert str(caught.value) == f"{path}:1:1: the file cannot be read: no such file or directory"


def test_file_is_known_by_name_and_hash(tmp_path):
    path = tmp_path / "own.yaml"
    path.write_text(PRICES, encoding="utf-8")
    found = read_prices(path)
    assert (found.file, found.sha256) == ("own.yaml", hashlib.sha256(PRICES.encode()).hexdigest())
    assert (found.name, found.source, found.unit) == ("round prices", "invented for a test", "EUR")


def test_order_of_sizes_and_forces_does_not_matter():
    turned = round_prices(
        ("{ 20 kN: 50, 50 kN: 90, 100 kN: 160 }", "{ 100 kN: 160, 20 kN: 50, 50000 N: 90 }"),
        ("pipe: { DN 100: 10, DN 200: 20 }", "pipe: { NPS 8: 20, DN100: 10 }"),
    )
    assert turned.anchors == round_prices().anchors
    assert turned.pipework == round_prices().pipework


@pytest.mark.parametrize("key", [key for key in KEYS if key.required], ids=lambda key: ", ".join(key.path))
def test_key_that_is_required_is_missed(key):
    """The key is renamed, which says two things: that it is missing, and that there is none of the new name."""
    old = f"\n{'  ' * (len(key.path) - 1)}{key.path[-1]}:"
    assert old in PRICES
    with pytest.raises(InputError) as caught:
        round_prices((old, old.replace(key.path[-1], "zzz")))
    messages = [fault.message for fault in caught.value.faults]
    assert any(words.startswith(f"the key '{', '.join(key.path)}' is required") for words in messages), messages
    assert any("unknown key 'zzz'" in words for words in messages), messages
    assert len(messages) == 2


def test_examples_of_the_keys_are_read():
    text = f"{FORM.version_key}: {FORM.version}\n" + "".join(_written(key, key.example) for key in KEYS)
    found = prices_from_bytes(text.encode(), "x.yaml")
    assert found.pipework.bend == SizeTable(what="bend", sizes=(50.0, 200.0), prices=(4.0, 9.5))


def _written(key: Key, words: str) -> str:
    """Return a key as a file has it; the outer key of several before the first of them."""
    if len(key.path) == 1:
        return f"{key.path[0]}: {words}\n"
    outer, inner = key.path
    first = next(one for one in KEYS if one.path[0] == outer) is key
    return f"{outer}:\n  {inner}: {words}\n" if first else f"  {inner}: {words}\n"


PRICE = st.floats(min_value=0.0, max_value=1e9)


@given(
    by_size=st.dictionaries(st.sampled_from(SIZES), PRICE, min_size=1, max_size=8),
    by_load=st.dictionaries(
        st.floats(min_value=1e-3, max_value=1e9), st.floats(min_value=1e-3, max_value=1e9), min_size=1, max_size=6
    ),
    factor=st.floats(min_value=1e-3, max_value=1e3),
)
@example(by_size={"DN 100": 1e-7}, by_load={1e-3: 1e9}, factor=1e-3)
def test_what_is_written_is_read(by_size, by_load, factor):
    """Every digit: the shortest text of a float is read back as the same float."""
    rising = dict(zip(sorted(by_load), sorted(by_load.values()), strict=True))
    sizes = ", ".join(f"{size}: {price!r}" for size, price in by_size.items())
    loads = ", ".join(f"{load!r} N: {price!r}" for load, price in rising.items())
    found = round_prices(
        ("pipe: { DN 100: 10, DN 200: 20 }", f"pipe: {{ {sizes} }}"),
        ("{ 20 kN: 50, 50 kN: 90, 100 kN: 160 }", f"{{ {loads} }}"),
        ("labour: 1.5", f"labour: {factor!r}"),
    )
    numbers = {float(size.removeprefix("DN ")): price for size, price in by_size.items()}
    assert dict(zip(found.pipework.pipe.sizes, found.pipework.pipe.prices, strict=True)) == numbers
    assert dict(zip(found.anchors.limits, found.anchors.prices, strict=True)) == rising
    assert found.pipework.labour == factor


@given(at=st.integers(min_value=0, max_value=len(PRICES) - 1), letter=st.characters(codec="utf-8"))
def test_damaged_file_is_read_or_refused_with_places(at, letter):
    text = PRICES[:at] + letter + PRICES[at + 1 :]
    lines = text.count("\n") + 2
    assert all(1 <= fault.line <= lines and fault.column >= 1 for fault in _faults(text.encode()))


def _faults(content: bytes) -> tuple[Fault, ...]:
    try:
        prices_from_bytes(content, "p.yaml")
    except InputError as error:
        return error.faults
    return ()
