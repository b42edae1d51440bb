package org.sapotrace.pages;

import jakarta.inject.Singleton;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemPage;

/** Shows people what went wrong, on every address but those of the interface. */
@Singleton
final class ErrorPage implements ProblemPage {

  @Override
  public boolean covers(String path) {
    return !path.matches("/(api|q)(/.*)?");
  }

  @Override
  public String html(Problem problem) {
    return Templates.problem(problem).render();
  }
}
