"""Which sites and kilns of several texts are one."""

from __future__ import annotations

import random

from made_stands import site

from stacklint.yard.blocks import one_by_one
from stacklint.yard.stands import Block


def one(*blocks: Block) -> int:
    """How many sites the blocks describe; the same in any order."""
    found = {len(set(one_by_one(random.Random(seed).sample(blocks, len(blocks))).values())) for seed in range(6)}
    (number,) = found
    return number


def test_of_no_blocks_there_is_none() -> None:
    assert one_by_one([]) == {}


def test_the_same_block_that_several_plans_use_is_one_site() -> None:
    assert one(site(), site(), site()) == 1


def test_two_blocks_of_one_name_in_one_folder_are_one_site_however_the_name_is_spelled() -> None:
    assert one(site("Hill", "hill/a.stackplan", words="1"), site("HILL", "hill/b.stackplan", words="2")) == 1


def test_two_blocks_that_say_the_same_are_one_site_though_they_lie_in_two_folders() -> None:
    assert one(site("Hill", "hill/a.stackplan", words="1"), site("Hill", "river/b.stackplan", words="1")) == 1


def test_two_yards_may_each_have_a_site_of_one_name() -> None:
    assert one(site("Hill", "hill/a.stackplan", words="1"), site("Hill", "river/b.stackplan", words="2")) == 2


def test_blocks_of_other_names_are_other_sites_though_they_say_the_same() -> None:
    assert one(site("Hill", "a.stackplan", words="1"), site("River", "a.stackplan", 9, words="1")) == 2


def test_two_blocks_are_one_where_a_third_makes_them_so() -> None:
    """The copy in river/ says what that in hill/ says, and lies beside another that says otherwise."""
    blocks = (
        site("Hill", "hill/a.stackplan", words="1"),
        site("Hill", "river/b.stackplan", words="1"),
        site("Hill", "river/c.stackplan", words="2"),
    )
    assert one(blocks[0], blocks[2]) == 2
    assert one(*blocks) == 1


def test_the_key_is_that_of_the_first_block_by_its_place() -> None:
    keys = one_by_one([site("HILL", "hill/b.stackplan"), site("Hill", "hill/a.stackplan")])
    assert set(keys.values()) == {("hill/a.stackplan", 3, "hill")}
