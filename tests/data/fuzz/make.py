#!/usr/bin/env python3
"""Writes the corpora of the fuzzers: python3 make.py, in this folder. What its bytes mean stands in tests/fuzz/feed_*.cpp.
The clips come from FFmpeg's own test sources; another version of FFmpeg writes other bytes."""
import io
import json
import pathlib
import struct
import subprocess
import tarfile

HERE = pathlib.Path(__file__).parent


def put(door, name, content):
    (HERE / door).mkdir(exist_ok=True)
    (HERE / door / name).write_bytes(content if isinstance(content, bytes) else content.encode())


def text(content):
    content = content if isinstance(content, bytes) else content.encode()
    return struct.pack("<H", len(content)) + content


# A table of counts behind a byte that says how it is to be read.
TALLIES = HERE.parent / "tallies"
for number, file in enumerate(sorted(TALLIES.glob("*.[ct][sx][vt]"))):
    put("tally", file.stem, bytes([(number * 37) % 128]) + file.read_bytes())
put("tally", "ambiguous", b"\x00racket,hitter,shot,frames,fps\nA,x,1,\"1,000\",\"23,976\"\na,x,2,5,240\n A ,x,3,1e3,1e308\n")
put("tally", "start_and_return", b"\x80racket;hitter;start;return;turns;fps\nA;x;12;17;1;240\nA;x;-5;99999999999999999999;1;nan\n")
put("tally", "quotes", b"\x10racket,hitter,frames\n\"A \"\"b\"\"\n2\",x,5\n\"open,x,6\n")

put("implements", "columns", "name,condition,\"mass, g\"\npolyester 23 kg,new,95\ngut 24 kg,worn,\n")
put("implements", "semicolons", "\ufeffimplement;price\r\nA;1,5\r\nB;\r\n")
put("implements", "utf16", "name\tmass\nBlé\t95\n".encode("utf-16"))
put("implements", "twice", "name\rA\rA\r")

put("slate", "whole", "Turnmark slate 1\nsession: Bench day\nimplement: polyester 23 kg\ncondition: new\nhitter: A\n")
put("slate", "newer", "Turnmark slate 2\nimplement: A\nhitter: B\n")
put("slate", "unknown_lines", "Turnmark slate 1\r\nimplement:  A \t b\nweather: dry\nhitter: Zo\u00eb\nhitter: B\n")

# The examples of core/project/FORMAT.md.
CLOCK = {"kind": "counted", "stretch": {"num": 1, "den": 1}, "counted_fps": {"num": 240, "den": 1}, "relative_sigma": 0.0001}
MARKS = {"clip_fingerprint": "f", "marks": {
    "start": {"frame": 12, "spread_intervals": 0.5},
    "returns": [{"kind": "nearest", "frame": 17, "frame_after": 17, "turns": 1},
                {"kind": "bracket", "frame": 21, "frame_after": 22, "fraction": 0.4, "fraction_half_width": 0.1}], "angles": []},
    "clock": CLOCK,
    "context": {"symmetry_order": 1, "exposure_s": 0.001, "dial_step_rad": 0.0174,
                "rolling_shutter": {"kind": "known", "readout_s": 0.008, "rows": [{"frame": f, "row": 0.4} for f in (12, 17, 21, 22)]},
                "line_of_sight": {"kind": "contribution", "angle_rad": 0.02, "sigma_rad": 0}}}
ANGLES = dict(MARKS, marks={"returns": [], "angles": [
    {"frame": 12 + i, "angle_rad": 0.5 + 0.3 * i, "spread_rad": 0.09, "spread_kind": "normal"} for i in range(5)]},
    context={"symmetry_order": 2, "line_of_sight": {"kind": "not_assessed"}, "rolling_shutter": {"kind": "not_assessed"}})
FIT = {"clip_fingerprint": "f", "first_frame": 3, "last_frame": 40, "shot_first_frame": 5, "shot_last_frame": 38, "clock": CLOCK,
       "clicks": [{"frame": 12, "centre_px": [100.5, 50.25], "radius_px": 20}],
       "facts": {"readout_s": 0.006, "marking_symmetry": 2, "exposure_s": 0.001, "field_of_view_rad": 1.1,
                 "field_of_view_sigma_rad": 0.02, "ball_diameter_m": 0.067},
       "track": [{"frame": 12, "time_s": 0.05, "centre_px": [100.5, 50.25], "centre_sigma_px": [0.1, 0.2], "radius_px": 20,
                  "radius_sigma_px": 0.3, "smear_px": [4, -1], "source": "clicked"}],
       "fit": {"angular_velocity_rad_per_s": [1, 2, 150], "covariance_rad2_per_s2": [[1, 0, 0], [0, 2, 0], [0, 0, 3]],
               "explained_share": 0.9, "field_of_view_rad": 1.05, "uniqueness_standard_errors": 7.5}}
put("inputs", "returns", "\0" + json.dumps(MARKS))
put("inputs", "angles", "\0" + json.dumps(ANGLES))
put("inputs", "fit", "\1" + json.dumps(FIT))
put("inputs", "nested", "\0" + "[" * 2000)
put("inputs", "nested_cbor", b"\2" + b"\x81" * 2000)
put("inputs", "large_cbor", b"\2\x9a\xff\xff\xff\xff")


# Bytes over a sound project (even first byte), or values in its rows: table, row, column, kind of value.
def planted(choice, *values):
    return bytes([choice]) + b"".join(values)


def value(table, row, column, kind, content=b""):
    return bytes([table, row, column, kind]) + content


TABLES = ["cell", "clip", "clip_frames", "evidence", "history", "history_shot", "hitter", "implement", "picture_archive", "plan",
          "reading", "reading_effort", "second_look", "second_reading", "session", "setting", "shot", "shot_correction",
          "undo_position", "undo_step"]
clip, frames, archive, plan, reading, shot, position, step, session, implement = (
    TABLES.index(name) for name in ("clip", "clip_frames", "picture_archive", "plan", "reading", "shot", "undo_position",
                                    "undo_step", "session", "implement"))
INFINITE = struct.pack("<d", float("inf"))
put("project", "sound", b"\0")
for number in range(1, 7):
    put("project", f"sound_{number}", bytes([number << 2]))
put("project", "header", b"\0" + b"\x10\0\0" + text(b"\0\1"))
put("project", "page", b"\2" + b"\0\x20\0" + text(b"\xff" * 64))
put("project", "infinite_rate", planted(3, value(reading, 0, 6, 3, INFINITE)))
put("project", "nested_marks", planted(1, value(shot, 0, 8, 5, text("[" * 3000))))
put("project", "nested_plan", planted(3, value(plan, 0, 1, 5, text('{"a":' * 3000))))
put("project", "edited_marks", planted(1, value(shot, 0, 8, 6, struct.pack("<HB", 30, 5) + text("1e999"))))
put("project", "long_ticks", planted(1, value(frames, 0, 3, 6, struct.pack("<HB", 8, 1) + text(b"\xff" * 7))))
put("project", "no_frames", planted(1, value(clip, 0, 5, 2, b"\2")))
put("project", "huge_shot", planted(1, value(shot, 0, 5, 1, struct.pack("<q", 2**62))))
put("project", "undo_lost", planted(1, value(position, 0, 1, 1, struct.pack("<q", 5000))))
put("project", "broken_step", planted(1, value(step, 3, 2, 6, struct.pack("<HB", 1, 3) + text(b"\x07\xff"))))
put("project", "broken_step_3", planted(13, value(step, 2, 2, 6, struct.pack("<HB", 0, 30) + text(b""))))
put("project", "no_session", planted(1, value(clip, 0, 1, 2, b"\x0c")))
put("project", "control_names", planted(3, value(implement, 0, 1, 5, text("a\x1b[2J\0b")), value(session, 0, 1, 5, text("\u202e"))))


def tar(*items):
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w", format=tarfile.PAX_FORMAT) as archive:
        for name, content in items:
            entry = tarfile.TarInfo(name)
            entry.size = len(content)
            archive.addfile(entry, io.BytesIO(content))
    return out.getvalue().rstrip(b"\0") + b"\0" * 1024


def item(choice, path, content=b""):
    return bytes([choice]) + text(path) + text(content)


MANIFEST = json.dumps({"format": "turnmark pack", "version": 1, "project": "p.turnmark",
                       "files": [{"path": "p.turnmark", "size": 1, "sha256": "0" * 64}]})
put("archive", "manifest", "\0" + MANIFEST)
put("archive", "nested_manifest", "\0" + "[" * 2000)
put("archive", "large_number", "\0" + MANIFEST.replace('"size": 1', '"size": 1e300'))
put("archive", "tar", b"\1" + tar(("manifest.json", MANIFEST.encode()), ("p.turnmark", b"x")))
put("archive", "foreign", b"\1" + b"PK\3\4 no tar")
put("archive", "whole", b"\2" + item(1, "p.turnmark") + item(0, "clips/a.mp4", b"film"))
put("archive", "unsaid", b"\2" + item(1, "p.turnmark") + item(2, "extra", b"x"))
put("archive", "outside", b"\2" + item(1, "p.turnmark") + item(0, "../out", b"x"))
put("archive", "link", b"\2" + item(1, "p.turnmark") + item(22, "a", b"/etc") + item(0, "a/passwd", b"x"))
put("archive", "folder", b"\2" + item(1, "p.turnmark") + item(6, "a") + item(0, "a", b"x"))
put("archive", "journal", b"\2" + item(1, "p.turnmark") + item(0, "p.turnmark-journal", b"x"))
put("archive", "backups", b"\2" + item(1, "p.turnmark") + item(0, "p.turnmark/b", b"x"))

SOURCE = "-f lavfi -i testsrc2=size=32x32:rate=30:duration=0.27 "
SOUND = "-f lavfi -i sine=duration=0.1:sample_rate=8000 -c:a "
(HERE / "clip").mkdir(exist_ok=True)
for name, arguments in {
    "h264.mp4": SOURCE + SOUND + "aac -b:a 8k -c:v libx264 -g 4 -bf 2",
    "h264.mkv": SOURCE + "-c:v libx264 -g 4",
    "h264.ts": SOURCE + "-c:v libx264 -g 4",
    "hevc.mp4": SOURCE + "-c:v libx265 -x265-params log-level=none:keyint=4",
    "vp9.webm": SOURCE + "-c:v libvpx-vp9 -deadline realtime -g 4",
    "mpeg4.avi": SOURCE + SOUND + "pcm_u8 -c:v mpeg4 -q:v 8 -g 4 -bf 2",
    "mjpeg.mov": SOURCE + "-c:v mjpeg -q:v 20 -movflags faststart",
    "turned.mov": SOURCE + "-c:v mpeg4 -q:v 20 -metadata:s:v rotate=90 -metadata com.android.capture.fps=240",
    "ffv1.mkv": SOURCE + "-vf scale=16:16 -c:v ffv1 -level 3 -slicecrc 1",
    "sound.wav": "-f lavfi -i sine=duration=0.05:sample_rate=8000 -c:a pcm_u8",
    "still.png": SOURCE + "-frames:v 1 -c:v png",
}.items():
    made = HERE / "clip" / name
    subprocess.run(["ffmpeg", "-v", "error", "-y", *arguments.split(), "-fflags", "+bitexact",
                    "-flags:v", "+bitexact", "-flags:a", "+bitexact", str(made)], check=True)
