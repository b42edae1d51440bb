package org.sapotrace.pages;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import java.util.List;
import org.sapotrace.http.Problem;

/** The pages, in {@code templates}. */
@CheckedTemplate(basePath = "")
final class Templates {

  private Templates() {}

  /**
   * What there is to titrate for.
   *
   * @param reviews whether the reader may look at reviews
   * @param address under which the service was asked, for what is to be sent to it
   */
  static native TemplateInstance choice(
      List<ListedLine> lines, boolean more, boolean reviews, String address);

  /**
   * The review of a line.
   *
   * @param more whether it has more streams than are shown
   * @param reviews whether the reader may look at review documents
   */
  static native TemplateInstance line(LinePage page, boolean more, boolean reviews);

  static native TemplateInstance titration(FormHead head, TitrationForm form);

  static native TemplateInstance value(FormHead head, ValueForm form);

  static native TemplateInstance result(ResultPage page);

  static native TemplateInstance problem(Problem problem);
}
