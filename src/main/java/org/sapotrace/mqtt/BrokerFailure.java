package org.sapotrace.mqtt;

/** The broker did not do what it was asked; the message says why, for whoever runs the service. */
final class BrokerFailure extends RuntimeException {

  private static final long serialVersionUID = 1L;

  BrokerFailure(String reason) {
    super(reason);
  }
}
