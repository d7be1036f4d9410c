"""One convolution as a shell of revolution: elements, solution, stresses, stability.     (bellows/shell/__init__.py)"""
