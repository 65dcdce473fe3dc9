#include "ui/shell/jobs_button.h"

#include <QMenu>
#include <QPainter>
#include <QTimer>
#include <algorithm>

#include "core/jobs/memory_budget.h"
#include "ui/shell/tr.h"
#include "ui/style/sign.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

/// Jobs shorter than this are not shown: a flicker tells nobody anything.
constexpr int kPatienceMs = 300;

constexpr int kJobSignPx = 22;
constexpr int kJobBarPx = 4;
constexpr int kNarrowBarPx = 28;
constexpr int kMostWordsPx = 190;

QString lineOf(const bridge::JobRunner::JobView& job) {
    QString line = job.title;
    if (!job.isRunning) {
        return tr("%1 (waiting)").arg(line);
    }
    if (job.fraction > 0.0) {
        line += QStringLiteral(" %1 %").arg(static_cast<int>(100.0 * job.fraction));
    }
    return job.step.isEmpty() ? line : line + QStringLiteral(" · ") + job.step;
}

}  // namespace

JobsButton::JobsButton(bridge::JobRunner& jobs, QWidget* parent)
    : QToolButton{parent}, m_jobs{jobs}, m_menu{new QMenu{this}} {
    setPopupMode(QToolButton::InstantPopup);
    setMenu(m_menu);
    setAutoRaise(true);
    setFocusPolicy(Qt::TabFocus);
    hide();
    auto* patience = new QTimer{this};
    patience->setSingleShot(true);
    patience->setInterval(kPatienceMs);
    connect(patience, &QTimer::timeout, this, &JobsButton::refresh);
    connect(&m_jobs, &bridge::JobRunner::changed, this, [this, patience] {
        if (isVisible()) {
            refresh();
        } else if (!patience->isActive()) {
            patience->start();
        }
    });
}

void JobsButton::refresh() {
    constexpr std::size_t kMebibyte = std::size_t{1} << 20U;
    const auto memory = core::jobs::MemoryBudget::ofProgram().counters();
    setToolTip(tr("Work in the background; open to pause or cancel. Pictures and readings hold "
                  "%1 of the %2 MiB that they may")
                   .arg(memory.allBytes() / kMebibyte)
                   .arg(memory.limitBytes / kMebibyte));
    const auto jobs = m_jobs.jobs();
    m_menu->clear();
    if (jobs.isEmpty()) {
        hide();
        Q_EMIT resized();
        return;
    }
    const bool isPaused = m_jobs.isPaused();
    QString text = lineOf(jobs.front());
    text = isPaused ? tr("Paused: %1").arg(text) : text;
    if (jobs.size() > 1) {
        text += QStringLiteral("  (+%1)").arg(jobs.size() - 1);
    }
    m_share = jobs.front().fraction;
    setText(text);
    setToolTip(text + QLatin1Char('\n') + toolTip());
    update();
    m_menu->addAction(isPaused ? tr("Go on") : tr("Pause"), this,
                      [this, isPaused] { m_jobs.pause(!isPaused); });
    m_menu->addSeparator();
    for (const auto& job : jobs) {
        m_menu->addAction(tr("Cancel: %1").arg(lineOf(job)), this,
                          [this, id = job.id] { m_jobs.cancel(id); });
    }
    show();
    Q_EMIT resized();
}

void JobsButton::setWide(bool isWide) {
    if (isWide != m_isWide) {
        m_isWide = isWide;
        updateGeometry();
        update();
    }
}

int JobsButton::widthFor(bool isWide) const {
    if (isHidden()) {
        return 0;
    }
    // One width for all words: what stands beside it must not jump with every step of a job.
    return kJobSignPx + 3 * style::kBetweenPx + (isWide ? kMostWordsPx : kNarrowBarPx);
}

QSize JobsButton::sizeHint() const {
    return {widthFor(m_isWide), style::heightFor(style::kPrimaryHeightPx, fontMetrics().height())};
}

void JobsButton::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.setLayoutDirection(Qt::LeftToRight);  // places are not mirrored
    painter.setRenderHint(QPainter::Antialiasing);
    const QPalette look = style::programPalette();
    if (underMouse() || isDown() || hasFocus()) {
        painter.setPen(hasFocus() ? QPen{colour(style::Token::Chalk, look), style::kFocusPx}
                                  : QPen{Qt::NoPen});
        painter.setBrush(colour(style::Token::BandHover, look));
        painter.drawRoundedRect(QRectF{rect()}.adjusted(1, 1, -1, -1), style::kControlRadiusPx,
                                style::kControlRadiusPx);
    }
    const QColor words = colour(style::Token::BandWords, look);
    style::drawSign(painter, style::Sign::Jobs,
                    {static_cast<double>(style::kBetweenPx), (height() - kJobSignPx) / 2.0,
                     kJobSignPx, kJobSignPx},
                    words);
    const int left = kJobSignPx + 2 * style::kBetweenPx;
    const int room = width() - left - style::kBetweenPx;
    const int line = fontMetrics().height();
    const int top = m_isWide ? (height() - line - kJobBarPx - 2) / 2 : (height() - kJobBarPx) / 2;
    if (m_isWide) {
        painter.setFont(style::textFont(font(), style::TextSize::Small));
        painter.setPen(words);
        painter.drawText(QRect{left, top, room, line}, Qt::AlignLeft | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(text(), Qt::ElideRight, room));
    }
    const QRectF bar{static_cast<double>(left),
                     static_cast<double>(m_isWide ? top + line + 2 : top),
                     static_cast<double>(room), kJobBarPx};
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour(style::Token::BandQuiet, look));
    painter.setOpacity(0.4);
    painter.drawRoundedRect(bar, kJobBarPx / 2.0, kJobBarPx / 2.0);
    painter.setOpacity(1.0);
    painter.setBrush(colour(style::Token::Chalk, look));
    painter.drawRoundedRect(
        {bar.topLeft(), QSizeF{bar.width() * std::clamp(m_share, 0.0, 1.0), bar.height()}},
        kJobBarPx / 2.0, kJobBarPx / 2.0);
}

}  // namespace ui::shell
