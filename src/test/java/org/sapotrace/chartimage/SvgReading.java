package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;

/** An SVG picture read back: its texts and marks with their places. */
final class SvgReading {

  private static final Pattern TRANSLATION =
      Pattern.compile("translate\\(([-0-9.]+)[, ]([-0-9.]+)\\)");

  /** Places are written with two decimals. */
  private static final double ROUNDING = 0.02;

  /** A text with the box of its letters, px. */
  record Text(String words, double x, double baseline, double size, String fill) {
    Rectangle2D box() {
      return new Rectangle2D.Double(
          x, baseline - 0.72 * size, Typeface.width(words, size) - ROUNDING, 0.72 * size);
    }
  }

  final Document document;

  SvgReading(byte[] svg) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setNamespaceAware(true);
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    document = factory.newDocumentBuilder().parse(new ByteArrayInputStream(svg));
  }

  Element root() {
    return document.getDocumentElement();
  }

  /** The content of the only element of a name. */
  String only(String name) {
    return elements(name).get(0).getTextContent();
  }

  List<Text> texts() {
    List<Text> texts = new ArrayList<>();
    for (Element text : elements("text")) {
      texts.add(
          new Text(
              text.getTextContent(),
              number(text, "x") + shift(text, 1),
              number(text, "y") + shift(text, 2),
              Double.parseDouble(inherited(text, "font-size").replace("px", "")),
              inherited(text, "fill")));
    }
    return texts;
  }

  /** Without its only path, whose box is no measure of what it covers. */
  SvgReading withoutCurve() {
    Element curve = elements("path").get(0);
    curve.getParentNode().removeChild(curve);
    return this;
  }

  /** No text touches another or a mark, and all lie inside the picture. */
  void assertTextsAreFree(int width, int height) {
    List<Rectangle2D> taken = new ArrayList<>(circles());
    taken.addAll(diamonds());
    assertThat(texts()).hasSizeGreaterThan(5);
    for (Text text : texts()) {
      assertThat(new Rectangle2D.Double(0, 0, width, height).contains(text.box()))
          .as("%s lies inside", text)
          .isTrue();
      assertThat(taken).as("%s is free", text).noneMatch(other -> other.intersects(text.box()));
      taken.add(text.box());
    }
  }

  /** The boxes of results without signals. */
  List<Rectangle2D> circles() {
    List<Rectangle2D> boxes = new ArrayList<>();
    for (Element circle : elements("circle")) {
      double x = number(circle, "cx") + shift(circle, 1);
      double y = number(circle, "cy") + shift(circle, 2);
      double radius = number(circle, "r");
      boxes.add(new Rectangle2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
    }
    return boxes;
  }

  /** The boxes of results with signals. */
  List<Rectangle2D> diamonds() {
    List<Rectangle2D> boxes = new ArrayList<>();
    for (Element polygon : elements("polygon")) {
      boxes.add(boundsOf(polygon, polygon.getAttribute("points")));
    }
    for (Element path : elements("path")) {
      boxes.add(boundsOf(path, path.getAttribute("d")));
    }
    return boxes;
  }

  private Rectangle2D boundsOf(Element shape, String coordinates) {
    Matcher number = Pattern.compile("([-0-9.]+)[ ,]+([-0-9.]+)").matcher(coordinates);
    Rectangle2D box = null;
    while (number.find()) {
      double x = Double.parseDouble(number.group(1)) + shift(shape, 1);
      double y = Double.parseDouble(number.group(2)) + shift(shape, 2);
      if (box == null) {
        box = new Rectangle2D.Double(x, y, 0, 0);
      }
      box.add(x, y);
    }
    return box;
  }

  private List<Element> elements(String name) {
    NodeList nodes = document.getElementsByTagNameNS("*", name);
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      elements.add((Element) nodes.item(i));
    }
    return elements;
  }

  private static double number(Element element, String attribute) {
    return Double.parseDouble(element.getAttribute(attribute));
  }

  private static String inherited(Element element, String attribute) {
    Node node = element;
    while (node instanceof Element holder) {
      if (holder.hasAttribute(attribute)) {
        return holder.getAttribute(attribute);
      }
      node = node.getParentNode();
    }
    throw new AssertionError("no " + attribute);
  }

  private static double shift(Element element, int axis) {
    double sum = 0;
    Node node = element;
    while (node instanceof Element holder) {
      Matcher translation = TRANSLATION.matcher(holder.getAttribute("transform"));
      if (translation.find()) {
        sum += Double.parseDouble(translation.group(axis));
      }
      node = node.getParentNode();
    }
    return sum;
  }
}
