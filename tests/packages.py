#!/usr/bin/env python3
"""Makes the Debian packages, unpacks them as dpkg does, and draws with what was in them. Installed by dpkg they are where a machine
may be changed: see DEVELOPERS.md.

    packages.py BUILD_FOLDER SOURCE_FOLDER
"""
import pathlib
import subprocess
import sys
import tempfile

build, source = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])


def run(*words, **more):
    return subprocess.run(list(map(str, words)), check=True, capture_output=True, text=True, **more).stdout


def field(package, name):
    return run("dpkg-deb", "--field", package, name).strip()


def main():
    with tempfile.TemporaryDirectory() as folder:
        made, root = pathlib.Path(folder, "made"), pathlib.Path(folder, "root")
        run("cpack", "--config", build / "CPackConfig.cmake", "-B", made)
        packages = {field(file, "Package"): file for file in made.glob("*.deb")}
        assert set(packages) == {"wayfolio", "wayfolio-service", "libwayfolio-dev"}, packages
        depends = field(packages["wayfolio"], "Depends")
        for library in ("libcairo2", "libpango", "libqpdf", "libsqlite3", "liborcus"):
            assert library in depends, f"{library} is not in {depends}"
        assert field(packages["wayfolio-service"], "Architecture") == "all"
        for file in packages.values():
            run("dpkg-deb", "--extract", file, root)
        prefix = next(root.glob("**/bin/wayfolio")).parent.parent
        unit = (prefix / "lib/systemd/system/wayfolio.service").read_text()
        assert f"ExecStart=/{prefix.relative_to(root)}/bin/wayfolio serve" in unit, unit
        for name in ("share/man/man7/wayfolio-service.7", "share/wayfolio/schemas/result.schema.json", "include/wayfolio/wayfolio.hpp"):
            assert (prefix / name).exists(), f"{name} is in no package"
        sample = source / "sample-results/short-axis.json"
        drawn, as_built = made / "drawn.pdf", made / "as-built.pdf"
        run(prefix / "bin/wayfolio", "report", sample, "-o", drawn)
        run(build / "wayfolio", "report", sample, "-o", as_built)
        assert drawn.read_bytes() == as_built.read_bytes(), "the program of the package draws something else"


main()
