void looksOfItsOwn() {
    widget->setStyleSheet(QStringLiteral("color: red"));
    painter.setPen(QColor{0, 0, 0, 160});
    const QColor halo{12, 13, 14};
    painter.setBrush(QColor("#1d2147"));
    font.setPointSizeF(9.0);
    painter.setPen(Qt::white);
    painter.setPen(QColor{style::casing()});  // right
}
