#pragma once

#include <QStringList>
#include <QWidget>

namespace ui::findings {

/// What the signs of the ranking stand for, in one line. What does not fit is in the tool tip.
/// Confined.
class RankingLegend : public QWidget {
    Q_OBJECT

public:
    explicit RankingLegend(QWidget* parent = nullptr);

    /// hitters: told apart, in the order of their series; whose: what the ring stands for.
    void show(const QStringList& hitters, const QString& whose);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] QStringList words() const;

    QStringList m_hitters;
    QString m_whose;
};

}  // namespace ui::findings
