"""The recipe in DEVELOPERS.md has a co-op checked by other processes, with the results of a plain run."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from made_coop import TODAY

from stacklint.command.many import Many, Means
from stacklint.command.progress import Progress
from stacklint.running.job import Form

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"


@pytest.fixture(scope="module")
def client(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Any]:
    dask = pytest.importorskip("dask")
    distributed = pytest.importorskip("distributed")
    own = {
        "temporary-directory": str(tmp_path_factory.mktemp("dask")),
        "distributed.comm.timeouts.connect": "120s",
        "distributed.worker.memory.terminate": False,
    }
    with (
        dask.config.set(own),
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, processes=True, dashboard_address=None, host="127.0.0.1"
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        yield client


def recipe() -> dict[str, Any]:
    (text,) = re.findall(r"```python\n(.*?)```", DEVELOPERS.read_text(encoding="utf-8"), re.DOTALL)
    names: dict[str, Any] = {}
    exec(compile(text, str(DEVELOPERS), "exec"), names)
    return names


def test_what_is_checked_on_a_cluster_comes_to_the_same_as_on_one_machine(
    client: Any, yard: Path, tmp_path: Path
) -> None:
    with (tmp_path / "progress").open("w", encoding="utf-8") as out:
        many = Many([str(yard)], None, TODAY, Means(1, "none"))
        plain = [outcome.done.kept for outcome in many.outcomes(Form(), Progress(out))]
    plans, between = recipe()["check_on"](client, str(yard), TODAY)
    assert plans == plain
    assert between == many.yard()
    assert between.findings
