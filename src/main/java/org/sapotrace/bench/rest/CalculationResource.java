package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Analyte;
import org.sapotrace.bench.Calculations;
import org.sapotrace.bench.Propagation;
import org.sapotrace.bench.TitrationBasis;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;

/** Calculations that record nothing. */
@Path("/api/v1/calculations")
@Produces(MediaType.APPLICATION_JSON)
@Consumes(MediaType.APPLICATION_JSON)
class CalculationResource {

  private final Calculations calculations;

  CalculationResource(Calculations calculations) {
    this.calculations = calculations;
  }

  @POST
  @Requires(Scope.READ)
  @Path("/soap")
  public CalculationView soap(
      @NotNull @Valid SoapCalculation body, @RestQuery @Nullable Propagation propagation) {
    return calculate(body, body.analyte(), propagation);
  }

  @POST
  @Requires(Scope.READ)
  @Path("/free-alkali")
  public CalculationView freeAlkali(
      @NotNull @Valid FreeAlkaliCalculation body, @RestQuery @Nullable Propagation propagation) {
    return calculate(body, body.analyte(), propagation);
  }

  @POST
  @Requires(Scope.READ)
  @Path("/acid-number")
  public AcidityView acidNumber(
      @NotNull @Valid AcidityCalculation body, @RestQuery @Nullable Propagation propagation) {
    return acidity(body, Analyte.acidNumber(), propagation);
  }

  @POST
  @Requires(Scope.READ)
  @Path("/free-fatty-acid")
  public AcidityView freeFattyAcid(
      @NotNull @Valid AcidityCalculation body, @RestQuery @Nullable Propagation propagation) {
    return acidity(body, Analyte.freeFattyAcid(), propagation);
  }

  private CalculationView calculate(
      SampleCalculation body, Analyte analyte, @Nullable Propagation propagation) {
    return CalculationView.of(
        calculations.calculate(body.readings(), body.basis(analyte), body.sampledAt, propagation));
  }

  private AcidityView acidity(
      AcidityCalculation body, Analyte analyte, @Nullable Propagation propagation) {
    TitrationBasis basis = body.basis(analyte);
    return body.answer(
        analyte,
        basis,
        calculations.calculate(body.readings(), basis, body.sampledAt, propagation));
  }

  @POST
  @Requires(Scope.READ)
  @Path("/test-plan")
  public TestPlanCalculation.Answer testPlan(@NotNull @Valid TestPlanCalculation body) {
    return body.answer();
  }

  @POST
  @Requires(Scope.READ)
  @Path("/metal-equivalent")
  public MetalEquivalentCalculation.Answer metalEquivalent(
      @NotNull @Valid MetalEquivalentCalculation body) {
    return body.answer();
  }
}
