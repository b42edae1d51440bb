package org.sapotrace.chartimage;

import java.awt.Dimension;
import java.awt.Shape;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import javax.xml.transform.OutputKeys;
import javax.xml.transform.Transformer;
import javax.xml.transform.TransformerException;
import javax.xml.transform.TransformerFactory;
import javax.xml.transform.dom.DOMSource;
import javax.xml.transform.stream.StreamResult;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** A picture as SVG whose text is text, with a title and a description for whoever listens. */
final class SvgDocument {

  private static final String NAMESPACE = "http://www.w3.org/2000/svg";
  private static final String FONTS = "Liberation Sans, Arial, Helvetica, sans-serif";

  private SvgDocument() {}

  static byte[] of(Painting painting, int width, int height) {
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(emptyDocument());
    context.setComment(null);
    context.setPrecision(2);
    Surface surface = new Surface(context);
    surface.setSVGCanvasSize(new Dimension(width, height));
    painting.paint(surface, width, height);
    Element root = surface.getRoot();
    describe(root, painting, width, height);
    surface.fit(root.getElementsByTagNameNS(NAMESPACE, "text"));
    return write(root);
  }

  private static void describe(Element root, Painting painting, int width, int height) {
    root.setAttribute("viewBox", "0 0 " + width + " " + height);
    root.setAttribute("role", "img");
    Document document = root.getOwnerDocument();
    Element title = document.createElementNS(NAMESPACE, "title");
    title.setTextContent(painting.title());
    Element description = document.createElementNS(NAMESPACE, "desc");
    description.setTextContent(painting.description());
    root.insertBefore(description, root.getFirstChild());
    root.insertBefore(title, description);
    // Empty, and its name would clash where two pictures stand in one page.
    root.removeChild(root.getElementsByTagNameNS(NAMESPACE, "defs").item(0));
    NodeList all = root.getElementsByTagNameNS(NAMESPACE, "*");
    for (int i = 0; i < all.getLength(); i++) {
      ((Element) all.item(i)).removeAttribute("font-family");
    }
    root.setAttribute("font-family", FONTS);
  }

  /** Without a document type, which would send a reader to another machine for its definition. */
  private static byte[] write(Element root) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      Transformer writer = TransformerFactory.newInstance().newTransformer();
      writer.setOutputProperty(OutputKeys.OMIT_XML_DECLARATION, "yes");
      writer.transform(new DOMSource(root), new StreamResult(bytes));
    } catch (TransformerException e) {
      throw new IllegalStateException(e);
    }
    return bytes.toByteArray();
  }

  private static Document emptyDocument() {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(NAMESPACE, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IllegalStateException(e);
    }
  }

  /**
   * A surface without clips: nothing is drawn outside the plot, and a clip has a name, which would
   * clash where two pictures stand in one page.
   */
  private static final class Surface extends SVGGraphics2D {

    private final List<Double> advances = new ArrayList<>();

    Surface(SVGGeneratorContext context) {
      super(context, false);
    }

    @Override
    public void drawString(String text, float x, float y) {
      advances.add(getFont().getStringBounds(text, getFontRenderContext()).getWidth());
      super.drawString(text, x, y);
    }

    /** Keeps texts to the room that they take in our typeface, whatever the reader's may be. */
    void fit(NodeList texts) {
      for (int i = 0; i < texts.getLength(); i++) {
        Element text = (Element) texts.item(i);
        text.setAttribute("textLength", String.format(Locale.ROOT, "%.2f", advances.get(i)));
        text.setAttribute("lengthAdjust", "spacingAndGlyphs");
      }
    }

    @Override
    public void setClip(Shape clip) {
      // Kept whole: see above.
    }

    @Override
    public void clip(Shape clip) {
      // Kept whole: see above.
    }
  }
}
