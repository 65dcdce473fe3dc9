#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string_view>
#include <vector>

/// The doors through which bytes of others come in. Each hands bytes to one door and holds what
/// comes out against what the headers promise: a failure in words or a value that can be used,
/// never an exception, and no file where none belongs. A broken promise is thrown as
/// std::logic_error, which a test reports and a fuzzer takes for a crash.
namespace tests::fuzz {

using Bytes = std::span<const std::uint8_t>;

/// A project file: bytes laid over a sound project, or values put into its rows with check numbers
/// that fit; then opened, looked through, checked, undone, redone and rescued.
void feedProject(Bytes bytes);
/// A table of frame counts, laid out in every shape.
void feedTally(Bytes bytes);
/// A table of implements, put into a plan.
void feedImplements(Bytes bytes);
/// The text of a slate card.
void feedSlate(Bytes bytes);
/// What readings were made from (JSON) and what was read ahead (CBOR).
void feedInputs(Bytes bytes);
/// A packed project: bytes as they are, or files with a manifest that fits them.
void feedArchive(Bytes bytes);
/// A clip: its index, its pictures, its sound.
void feedClip(Bytes bytes);

/// A door with the name of its corpus and its fuzzer.
struct Target {
    std::string_view name;
    void (*feed)(Bytes);
};
[[nodiscard]] std::span<const Target> targets();

}  // namespace tests::fuzz
