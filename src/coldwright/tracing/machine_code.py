"""From LLVM's intermediate language to a function of this processor, kept on disk."""

from __future__ import annotations

import ctypes
import hashlib
import os
import stat
from importlib.metadata import version
from pathlib import Path
from typing import Any

from coldwright.cache_place import cache_folder, keep_whole

OPTIMISATION = 2
# To be raised with every change of how code is made or kept.
CODE_VERSION = 1
MOST_KEPT = 500  # files of some 100 kB
OWNERS_ALONE = 0o600
OTHERS_WRITE = stat.S_IWGRP | stat.S_IWOTH
DIGEST_SIZE = hashlib.sha256().digest_size
SIGNATURE = ctypes.CFUNCTYPE(
    None,
    ctypes.c_int64,
    ctypes.c_int64,
    ctypes.c_int64,
    ctypes.c_void_p,
    ctypes.c_void_p,
    ctypes.c_void_p,
    ctypes.c_void_p,
    ctypes.c_void_p,
)


def _processor() -> Any:  # noqa: ANN401 (llvmlite has no types)
    """What code is made for; a new one each time, since an engine takes its own for good."""
    import llvmlite.binding as llvm  # noqa: PLC0415 (slow to load, needed late)

    llvm.initialize_native_target()
    llvm.initialize_native_asmprinter()
    target = llvm.Target.from_default_triple()
    return target.create_target_machine(
        cpu=llvm.get_host_cpu_name(),
        features=llvm.get_host_cpu_features().flatten(),
        opt=OPTIMISATION,
        jit=True,
    )


class MachineCode:
    """A compiled module; `function` is its kernel, for as long as this is kept."""

    def __init__(self, text: str) -> None:
        import llvmlite.binding as llvm  # noqa: PLC0415 (slow to load, needed late)

        processor = _processor()
        file = _file(text, llvm)
        held = _read(file)
        module = llvm.parse_assembly(text)
        module.triple = processor.triple
        module.data_layout = str(processor.target_data)
        if held is None:
            module.verify()
            _optimise(llvm, processor, module)
        self._engine = llvm.create_mcjit_compiler(module, processor)
        self._engine.set_object_cache(
            notify_func=lambda _, made: _keep(file, made), getbuffer_func=lambda _: held
        )
        self._engine.finalize_object()
        self.function = SIGNATURE(self._engine.get_function_address("kernel"))


def _optimise(llvm: Any, processor: Any, module: Any) -> None:  # noqa: ANN401 (llvmlite has no types)
    options = llvm.create_pipeline_tuning_options(speed_level=OPTIMISATION)
    options.loop_vectorization = True
    options.slp_vectorization = True
    builder = llvm.create_pass_builder(processor, options)
    builder.getModulePassManager().run(module, builder)


def _file(text: str, llvm: Any) -> Path:  # noqa: ANN401 (llvmlite has no types)
    """Where the code made of `text` for this processor is kept."""
    made_for = (
        text,
        version("llvmlite"),
        llvm.get_host_cpu_name(),
        llvm.get_host_cpu_features().flatten(),
        f"{OPTIMISATION} {CODE_VERSION}",
    )
    digest = hashlib.sha256("\n".join(made_for).encode()).hexdigest()
    return cache_folder() / "code" / f"{digest[:32]}.o"


def _read(file: Path) -> bytes | None:
    """Code from disk; None where it is not there, damaged, or not ours alone to write.

    A processor must not run what is half there, or what another user may have put there.
    """
    try:
        with file.open("rb") as stream:
            if not _is_ours(os.fstat(stream.fileno())):
                return None
            held = stream.read()
    except OSError:
        return None
    digest, code = held[:DIGEST_SIZE], held[DIGEST_SIZE:]
    return code if hashlib.sha256(code).digest() == digest else None


def _is_ours(status: os.stat_result) -> bool:
    """Whether a file is this user's and nobody else may write it (as far as the system tells)."""
    if not hasattr(os, "getuid"):
        return True
    return status.st_uid == os.getuid() and not status.st_mode & OTHERS_WRITE


def _keep(file: Path, made: bytes) -> None:
    """Write in one step, if the place allows it."""
    try:
        digest = hashlib.sha256(made).digest()
        keep_whole(file, lambda stream: stream.write(digest + made), OWNERS_ALONE)
        # Each strength of a brine has code of its own: the oldest makes room.
        kept = sorted(file.parent.glob("*.o"), key=lambda path: path.stat().st_mtime)
        for old in kept[:-MOST_KEPT]:
            old.unlink(missing_ok=True)
    except OSError:
        # A read-only home must not stop an assessment.
        return
