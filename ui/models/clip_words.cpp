#include "ui/models/clip_words.h"

#include <QStringList>
#include <array>
#include <filesystem>
#include <string_view>

#include "ui/models/number_text.h"
#include "ui/models/tr.h"

namespace ui::models {

using core::timebase::ClockKind;

QString clipName(const core::project::Clip& clip) {
    return QString::fromStdString(std::filesystem::path{clip.path}.filename().string());
}

QString shortDecimal(double value) {
    QString text = QString::number(value, 'f', 3);
    while (text.endsWith(QLatin1Char('0'))) {
        text.chop(1);
    }
    if (text.endsWith(QLatin1Char('.'))) {
        text.chop(1);
    }
    return numberText(text);
}

std::optional<double> captureFps(const core::project::Clip& clip) {
    if (clip.clock && clip.clock->counted) {
        return clip.clock->counted->fps.toDouble();
    }
    return clip.clock && clip.playbackRate
               ? std::optional{(clip.playbackRate->fps * clip.clock->stretch).toDouble()}
               : std::nullopt;
}

QString captureRateText(const core::project::Clip& clip) {
    if (!clip.clock) {
        return tr("not settled");
    }
    const auto fps = captureFps(clip);
    return fps ? tr("%1 frames/s").arg(shortDecimal(*fps)) : tr("unknown");
}

QString clockKindText(const core::project::Clip& clip) {
    if (!clip.clock) {
        return {};
    }
    switch (clip.clock->kind) {
        case ClockKind::Stamped:
            return tr("time stamps");
        case ClockKind::Stretched:
            return tr("slow motion ×%1").arg(shortDecimal(clip.clock->stretch.toDouble()));
        case ClockKind::Counted:
            return tr("frames counted");
    }
    return {};
}

QString clockSourceText(const core::project::Clip& clip) {
    const auto* decided = core::timebase::decidingEvidence(clip.evidence);
    if (decided == nullptr) {
        return tr("nothing states it");
    }
    if (std::holds_alternative<core::timebase::ContainerTag>(*decided)) {
        return tr("file's tag");
    }
    return std::holds_alternative<core::timebase::ReviewerEntry>(*decided) ? tr("entered by hand")
                                                                           : tr("clock check");
}

bool isWarning(const core::project::ClipRemark& remark) {
    static constexpr std::array<std::string_view, 4> kOnlyInform{
        "nominal_against_exact", "check_decided", "stamps_not_used", "lens"};
    return std::none_of(kOnlyInform.begin(), kOnlyInform.end(),
                        [&remark](std::string_view kind) { return remark.kind == kind; });
}

}  // namespace ui::models
