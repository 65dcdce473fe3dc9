#include "ui/reading/grid/other_shot.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include "core/intake/clip_record.h"
#include "ui/reading/card/headline.h"
#include "ui/style/rank.h"
#include "ui/style/tabular_font.h"

namespace ui::reading {
namespace {

constexpr std::size_t kMostBytes = std::size_t{256} << 20U;  // decoded pictures of one shot

/// "Shot 3 · clip.mp4 · gut, hitter A"
QString nameOf(const ShotView& view) {
    QStringList parts{view.name, view.clipName, view.cellName};
    parts.removeAll(QString{});
    return parts.join(QStringLiteral(" · "));
}

}  // namespace

OtherShot::OtherShot(core::project::Store& store, PictureReader* reader, QWidget* parent)
    : QWidget{parent},
      m_frames{core::media::FrameService::create({.maxBytes = kMostBytes})},
      m_requester{*m_frames},
      m_desk{store, reader},
      m_pictures{m_requester},
      m_grid{new TurnGrid{m_desk, m_pictures, this}},
      m_words{new QLabel} {
    m_desk.setOnlyLooking();
    m_grid->setOnlyLookedAt();
    m_grid->setObjectName(QStringLiteral("other_grid"));
    m_grid->setAccessibleName(tr("Turn grid of the other shot"));
    m_words->setObjectName(QStringLiteral("other_words"));
    m_words->setTextFormat(Qt::PlainText);
    m_words->setMinimumWidth(1);  // gives way before the button does
    auto* close = new QPushButton{tr("Close")};
    close->setObjectName(QStringLiteral("close_other"));
    close->setToolTip(tr("Shows the shot under review alone (Esc)"));
    close->setFocusPolicy(Qt::TabFocus);
    style::setRank(close, style::Rank::Quiet);
    auto* line = new QHBoxLayout;
    line->setContentsMargins(6, 3, 6, 0);
    line->addWidget(m_words, 1);
    line->addWidget(close);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    column->addLayout(line);
    column->addWidget(m_grid, 1);
    connect(close, &QPushButton::clicked, this, &OtherShot::closeWanted);
    connect(&m_desk, &ReadingDesk::viewChanged, this, &OtherShot::showShot);
    connect(&m_desk, &ReadingDesk::shotClosed, this, &OtherShot::closeWanted);
    // A change of the shot brings its own rate back.
    connect(&m_desk, &ReadingDesk::rowChanged, this, [this] { setRowSeconds(m_rowSeconds); });
}

void OtherShot::open(core::project::ShotId shot, bool areNamesHidden) {
    m_desk.setNamesHidden(areNamesHidden);
    m_desk.openShot(shot);
}

void OtherShot::setRowSeconds(double seconds) {
    m_rowSeconds = seconds;
    if (seconds > 0.0) {
        m_desk.setRowSeconds(seconds);
    }
}

void OtherShot::goTo(double secondsAfterReference) {
    if (m_desk.hasShot()) {
        const ShotView& view = m_desk.view();
        m_desk.goToFrame(
            view.frameNearest(view.secondsOf(view.referenceFrame()) + secondsAfterReference));
    }
}

void OtherShot::showShot() {
    const ShotView& view = m_desk.view();
    if (view.kept) {
        m_pictures.showKept(view);
    } else {
        m_pictures.show(
            view, m_requester.openClip(view.file, core::intake::indexOf(view.clip, *view.frames)));
    }
    showWords();
}

void OtherShot::showWords() {
    const ShotView& view = m_desk.view();
    const auto snapshot = m_desk.store().snapshot();
    const auto* kept = view.shot.counting ? snapshot->readings.find(*view.shot.counting) : nullptr;
    const Headline headline = headlineOf(view, kept, methodToKeep(view, {}));
    const QString number =
        headline.number.isEmpty() ? headline.words : tr("%1 rpm").arg(headline.number);
    m_words->setFont(style::tabularFont(font()));
    m_words->setText(tr("Beside: %1 · %2").arg(nameOf(view), number));
    m_words->setToolTip(headline.source.isEmpty()
                            ? m_words->text()
                            : QStringLiteral("%1\n%2").arg(m_words->text(), headline.source));
}

}  // namespace ui::reading
