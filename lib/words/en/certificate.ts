/** The closed job's certificate. */
export const certificateWords = {
  certificate: "Certificate",
  forTheCustomer: "For the customer. It carries an address by which anyone holding it can check it.",
  writingItHere: "Writing it here",
  downloadTheCertificate: "Download the certificate",
  theCertificateCould:
    "The certificate could not be written. The job is closed and saved. Try again once there is a network.",
  itsAddressIsSaved: "Its address is saved here, and can be checked once it is sent",
  itsAddressIsSent: "Its address is sent",
};
