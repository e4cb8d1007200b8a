"""The recipes for hooks and CI are run, as far as one machine can run them: each step of the GitHub
workflow that is a command, the hooks by pre-commit itself, every share of the generic recipe."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft7Validator
from junitparser import JUnitXml

from repository.houses import HOUSE, PLAIN, STRIP, WRONG, committed, git, write
from support import HOUSE as ROOT

RECIPES = ROOT / "docs" / "ci"
SETTINGS = 'paths = ["."]\nexclude = ["drafts"]\n'
FILES = {
    "loopwright.toml": SETTINGS,
    "shared/house.crochet": HOUSE,
    "strips/strip.crochet": STRIP,
    "plain/one.crochet": PLAIN,
    "drafts/wrong.crochet": WRONG,
}


def commands() -> str:
    """A PATH on which this environment's commands come first."""
    return os.pathsep.join((str(Path(sys.executable).parent), os.environ["PATH"]))


def asked(*command: str, at: Path, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run a command of a recipe."""
    env = {key: value for key, value in os.environ.items() if not key.startswith("GIT_")}
    return subprocess.run(
        command,
        cwd=at,
        env=env | {"PATH": commands()} | environment,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )


# ------------------------------------------------------------------ GitHub
def workflow() -> dict[str, Any]:
    """The workflow, read so that `on` stays a word (in YAML 1.1 it is a truth)."""
    text = (RECIPES / "github.yml").read_text("utf-8")
    read: dict[str, Any] = yaml.load(text, yaml.BaseLoader)
    return read


def test_the_workflow_keeps_github_s_schema() -> None:
    vendored = files("check_jsonschema.builtin_schemas.vendor") / "github-workflows.json"
    schema = json.loads(vendored.read_text("utf-8"))
    assert [one.message for one in Draft7Validator(schema).iter_errors(workflow())] == []
    broken = {**workflow(), "jobs": {"check": {"steps": []}}}
    assert list(Draft7Validator(schema).iter_errors(broken))


@pytest.mark.parametrize("wrong", [False, True])
def test_every_command_of_the_workflow_runs(tmp_path: Path, wrong: bool) -> None:
    committed(write(tmp_path, FILES | ({"plain/two.crochet": WRONG} if wrong else {})))
    (job,) = workflow()["jobs"].values()
    steps = {step["run"]: step for step in job["steps"] if "run" in step}
    install, check = steps
    assert install == 'python -m pip install "$LOOPWRIGHT"'
    # A name alone would be looked up in a registry, where this program is not.
    assert workflow()["env"]["LOOPWRIGHT"].startswith("git+https://example.org/")
    # GitHub runs a step with bash, and ends it at the first command that fails.
    done = asked("bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", check, at=tmp_path)
    assert done.returncode == (1 if wrong else 0), done.stdout + done.stderr
    (upload,) = (step for step in job["steps"] if "upload-sarif" in step.get("uses", ""))
    assert upload["if"] == "success() || failure()"
    log = json.loads((tmp_path / upload["with"]["sarif_file"]).read_text("utf-8"))
    found = [
        one["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
        for one in log["runs"][0]["results"]
    ]
    assert found == (["plain/two.crochet"] if wrong else [])
    assert workflow()["permissions"]["security-events"] == "write"


# ------------------------------------------------------------------ shares
def test_all_shares_together_check_everything(tmp_path: Path) -> None:
    committed(write(tmp_path, FILES | {f"hats/{n}.crochet": PLAIN for n in range(20)}))
    names: list[str] = []
    for share in ("1", "2", "3"):
        done = asked(str(RECIPES / "shard.sh"), share, "3", at=tmp_path)
        assert done.returncode == 0, done.stdout + done.stderr
        report = JUnitXml.fromfile(str(tmp_path / f"patterns-{share}-of-3.xml"))
        names += [suite.name for suite in report]
    assert len(names) == len(set(names)) == 23
    write(tmp_path, {"hats/wrong.crochet": WRONG})
    codes = [asked(str(RECIPES / "shard.sh"), one, "3", at=tmp_path).returncode for one in "123"]
    assert sorted(codes) == [0, 0, 1]


def test_a_share_without_its_numbers_fails(tmp_path: Path) -> None:
    assert asked(str(RECIPES / "shard.sh"), at=tmp_path).returncode != 0


# ------------------------------------------------------------------ pre-commit
def test_the_hooks_are_as_pre_commit_wants_them() -> None:
    done = asked("pre-commit", "validate-manifest", str(ROOT / ".pre-commit-hooks.yaml"), at=ROOT)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_hooks_that_are_documented_are_there() -> None:
    text = (ROOT / "docs" / "repository.md").read_text("utf-8")
    shown = yaml.safe_load(text.split("```yaml\n")[1].split("```")[0])
    wanted = [hook["id"] for hook in shown["repos"][0]["hooks"]]
    hooks = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text("utf-8"))
    assert wanted == [hook["id"] for hook in hooks]


def test_pre_commit_runs_the_hooks(tmp_path: Path) -> None:
    import shutil

    left_out = shutil.ignore_patterns(".git", "tests", "build", "*.egg-info", "__pycache__")
    ours = Path(shutil.copytree(ROOT, tmp_path / "loopwright", ignore=left_out))
    committed(ours)
    untidy = PLAIN.replace("row 1: dc", "row 1 :dc")
    house = write(
        tmp_path / "house", FILES | {"plain/two.crochet": WRONG, "plain/u.crochet": untidy}
    )
    committed(house)
    kept = {"PRE_COMMIT_HOME": str(tmp_path / "kept"), "HOME": str(tmp_path)}

    def hook(name: str) -> subprocess.CompletedProcess[str]:
        rev = git(ours, "rev-parse", "HEAD").strip()
        told = f"repos:\n- repo: {ours}\n  rev: {rev}\n  hooks:\n  - id: {name}\n"
        write(house, {".pre-commit-config.yaml": told})
        committed(house)
        return asked("pre-commit", "run", "--all-files", at=house, **kept)

    checked = hook("loopwright-check")
    assert checked.returncode == 1
    assert "plain/two.crochet:5:53  count-differs" in checked.stdout
    assert "drafts" not in checked.stdout
    tidied = hook("loopwright-tidy")
    assert tidied.returncode == 1  # pre-commit fails where a hook changes a file
    assert (house / "plain" / "u.crochet").read_text("utf-8") == PLAIN.replace("part", "\npart")
    git(house, "rm", "-q", "-f", "plain/two.crochet")
    assert hook("loopwright-check").returncode == 0
    assert hook("loopwright-tidy").returncode == 0
    # a commit that changes only what another pattern uses, or takes it away
    assert hook("loopwright-check").returncode == 0
    write(house, {"shared/house.crochet": HOUSE.replace("stitch mussel", "stitch mussle")})
    git(house, "add", "-A")
    used = asked("pre-commit", "run", at=house, **kept)
    assert used.returncode == 1
    assert "strips/strip.crochet:8:27  unknown-stitch" in used.stdout
    git(house, "rm", "-q", "-f", "shared/house.crochet")
    gone = asked("pre-commit", "run", at=house, **kept)
    assert gone.returncode == 1
    assert "strips/strip.crochet:3:6  cannot-use" in gone.stdout
